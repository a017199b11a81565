import { MessageFlags } from 'discord.js'
import { readToken } from '#src/conversation/token.ts'
import type { Answered } from '#src/desk/desk.ts'
import type { Incoming } from './read.ts'
import { holdsHead } from './tidy.ts'

/** Where an answer goes. */
export interface Place {
  readonly how: 'update' | 'message'
  /** Seen by the whole channel. */
  readonly shared: boolean
  /** The message that was used stays; its used-up buttons go gray. */
  readonly tidy: boolean
}

/**
 * A question is replaced by what it led to, and a private conversation stays one message: one call, no stale
 * buttons, a short channel. Any other answer stays where it is and the next one follows below, since a crew scrolls
 * back to it; its used-up buttons are grayed afterwards, in a call that may fail without harm.
 */
export function placeAnswer(incoming: Incoming, answered: Answered): Place {
  const { source, wish } = incoming
  const isDirect = incoming.guild === null
  const forCrew = !isDirect && answered.reply.audience === 'crew'
  // What was answered before is shown again only to who pressed too late; the channel has seen it.
  const shared = forCrew && !(answered.replayed && wish.kind !== 'run')
  if (source === null || !isUsedUp(incoming, answered)) return { how: 'message', shared, tidy: false }
  const sourceShared = !isDirect && ((source.flags ?? 0) & MessageFlags.Ephemeral) === 0
  const isQuestion = (wish.kind === 'press' || wish.kind === 'submit') && wish.marks.question === true
  const isPrivateTalk = isDirect ? answered.reply.audience === 'person' : !sourceShared
  if (sourceShared === forCrew && (isQuestion || isPrivateTalk))
    return { how: 'update', shared: forCrew, tidy: false }
  // A private message can be changed only by answering it, and this answer goes elsewhere.
  return { how: 'message', shared, tidy: sourceShared || isDirect }
}

/** Whether the choices of the message that was used are closed now. */
function isUsedUp({ source, wish }: Incoming, answered: Answered): boolean {
  if (wish.kind === 'press') return answered.closed === true
  if (wish.kind !== 'submit' || source === null) return false
  return wish.marks.closing === true || (answered.closed === true && holdsHead(source.components, wish.token))
}

/** Whether this press was on a form's own button: the form opens, whatever else the answer holds. */
export function isFormPress({ wish }: Incoming): boolean {
  return wish.kind === 'press' && readToken(wish.token)?.choice === 'form'
}
