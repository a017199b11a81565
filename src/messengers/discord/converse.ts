import type { Ask } from '#src/conversation/ask.ts'
import { crewMenu, type Whose } from './crews.ts'
import { sayPlainly } from './language.ts'
import { FIRST_RESPONSE_MS } from './limits.ts'
import { renderNotice, renderPages } from './notice.ts'
import { isFormPress } from './place.ts'
import type { Incoming } from './read.ts'
import type { Responder } from './responder.ts'
import type { Rim } from './rim.ts'
import { sendNotice, sendPages } from './send.ts'
import { showAnswer } from './show.ts'

type Known = Extract<Whose, { kind: 'known' }>

/** Answers one interaction, whatever it wishes. */
export async function converse(rim: Rim, responder: Responder, incoming: Incoming): Promise<void> {
  const { wish, person } = incoming
  if (wish.kind === 'pick-crew') return continueWithCrew(rim, responder, incoming, wish.crewKey)
  const whose = await rim.crews.find(incoming)
  const say = (id: string) => sayPlainly(rim.words, person.locale, id)
  if (whose.kind === 'none') return sendNotice(responder, renderNotice(say('discord.no-crew')))
  if (whose.kind === 'several') {
    rim.crews.hold(incoming)
    const menu = crewMenu(whose.crews, say('discord.which-crew'))
    return sendNotice(responder, renderNotice(say('discord.which-crew'), [menu]))
  }
  if (wish.kind === 'working' || wish.kind === 'language') return recall(rim, responder, incoming, whose)
  return askDesk(rim, responder, incoming, whose)
}

/** The request that waited for this choice goes on under the new interaction, which is the one to be answered. */
async function continueWithCrew(
  rim: Rim,
  responder: Responder,
  incoming: Incoming,
  crewKey: string,
): Promise<void> {
  const before = rim.crews.choose(incoming.person.id, crewKey)
  if (before !== null) return converse(rim, responder, { ...incoming, source: null, wish: before.wish })
  return sendNotice(
    responder,
    renderNotice(sayPlainly(rim.words, incoming.person.locale, 'discord.crew-chosen')),
  )
}

/** A kept answer once more, for this reader alone. */
async function recall(rim: Rim, responder: Responder, incoming: Incoming, { by }: Known): Promise<void> {
  const { wish } = incoming
  if (wish.kind !== 'working' && wish.kind !== 'language') return
  const answered = await rim.desk.recall(wish.turnId, by)
  if (answered === null)
    return sendNotice(
      responder,
      renderNotice(sayPlainly(rim.words, incoming.person.locale, 'discord.not-for-you')),
    )
  const own = answered.language.person
  const isOther = rim.words.closest(own) !== rim.words.closest(answered.language.crew)
  const locale = wish.kind === 'language' && !isOther ? wish.language : own
  await sendPages(responder, renderPages(rim.words, answered, { locale, mostPages: MOST_PAGES }))
}

/** One first response and as many follow-ups as an app gets that is not in the server (40094). */
const MOST_PAGES = 6

/** Where waiting is said first: fixed by the command, or because files come along or the request is old already. */
async function askDesk(rim: Rim, responder: Responder, incoming: Incoming, whose: Known): Promise<void> {
  const slow = isSlow(rim, incoming)
  const deferred = slow || isOld(rim, incoming)
  // An old request is asked of the desk only if the platform still takes an answer: nothing is written that the
  // person believes has failed, and does again.
  if (deferred && !(await responder.defer()).ok) return
  const ask = askOf(incoming, whose)
  if (ask === null) return
  const answered = await rim.desk.answer(ask)
  await showAnswer(rim, responder, { incoming, answered, guild: whose.guild, slow, deferred })
}

function isSlow({ registry }: Rim, incoming: Incoming): boolean {
  const { wish } = incoming
  if (wish.kind === 'run')
    return registry.get(wish.command)?.slow === true || Object.values(wish.options).some(isFile)
  if (wish.kind === 'press') return wish.marks.slow === true && !isFormPress(incoming)
  if (wish.kind === 'submit')
    return Object.values(wish.fields).some((value) => Array.isArray(value) && value.some(isFile))
  return false
}

const isFile = (value: unknown) => typeof value === 'object' && value !== null

/** By the two clocks, which may differ; so an old request is tried, not dropped. A form's button has no effect. */
function isOld({ nowMs, openSinceMs }: Rim, incoming: Incoming): boolean {
  const marginMs = incoming.atMs < openSinceMs ? WAITED_MARGIN_MS : MARGIN_MS
  return !isFormPress(incoming) && nowMs() - incoming.atMs > FIRST_RESPONSE_MS - marginMs
}
const MARGIN_MS = 700
/** Where loading alone has taken a second, the first answer, which is the slowest of all, takes longer than is left. */
const WAITED_MARGIN_MS = 2000

function askOf(incoming: Incoming, { by }: Known): Ask | null {
  const { wish, id, atMs } = incoming
  const base = { id, by, atMs }
  switch (wish.kind) {
    case 'run':
      return { ...base, kind: 'run', command: wish.command, options: { ...wish.options } }
    case 'press':
      return { ...base, kind: 'press', token: wish.token }
    case 'submit':
      return { ...base, kind: 'submit', token: wish.token, fields: wish.fields }
    default:
      return null
  }
}
