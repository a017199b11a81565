import { readToken } from '#src/conversation/token.ts'
import type { Answered } from '#src/desk/desk.ts'
import { present } from '#src/messengers/present.ts'
import { flattenTyped } from './escape.ts'
import { languageFor } from './language.ts'
import { opensAtOnce, renderModal } from './modal.ts'
import { DEFAULT_FILE_BYTES, drawFiles } from './pictures.ts'
import { isFormPress, type Place, placeAnswer } from './place.ts'
import type { Incoming } from './read.ts'
import { type RenderOptions, renderMessage } from './render.ts'
import type { Responder } from './responder.ts'
import type { Rim } from './rim.ts'
import { sendFirst, sendModal } from './send.ts'
import { tidyMessage } from './tidy.ts'

export interface Shown {
  readonly incoming: Incoming
  readonly answered: Answered
  /** Server id that buttons must carry, in a direct message. */
  readonly guild: string | null
  readonly slow: boolean
  /** Waiting has been said already, privately. */
  readonly deferred: boolean
}

/** Shows an answer: as a form, as the first response, or after waiting was said. */
export async function showAnswer(rim: Rim, responder: Responder, shown: Shown): Promise<void> {
  if (!shown.deferred && (await openForm(rim, responder, shown))) return
  const place = placeAnswer(shown.incoming, shown.answered)
  if (shown.deferred) await showLate(rim, responder, shown, place)
  else await showNow(rim, responder, shown, place)
  const { source, channelId } = shown.incoming
  const isLeft = place.tidy || (shown.deferred && place.how === 'update' && isReachable(shown.incoming))
  if (isLeft && source !== null && channelId !== null) await tidyMessage(rim.rest, rim.log, channelId, source)
}

/** A private message of a channel can be changed through its own interaction only. */
const isReachable = ({ guild, source }: Incoming) => guild === null || ((source?.flags ?? 0) & 64) === 0

/** A modal is a first response only, and never the answer to another modal. */
async function openForm(
  rim: Rim,
  responder: Responder,
  { incoming, answered, guild }: Shown,
): Promise<boolean> {
  const { wish } = incoming
  if (wish.kind === 'submit' || answered.reply.form === null) return false
  const locale = answered.language.person
  const presented = present(rim.words, answered, { locale, escape: flattenTyped })
  if (presented.form === null || !(isFormPress(incoming) || opensAtOnce(presented))) return false
  const question = wish.kind === 'press' && wish.marks.question === true
  const closing = answered.closed === true
  await sendModal(responder, renderModal(presented, presented.form, { marks: { question, closing }, guild }))
  return true
}

async function showNow(rim: Rim, responder: Responder, shown: Shown, place: Place): Promise<void> {
  const options = renderOptions(shown, place.shared)
  const hasFiles = shown.answered.reply.files.length > 0
  const first = renderMessage(rim.words, shown.answered, {
    ...options,
    ...(hasFiles ? { files: { kind: 'coming' } } : {}),
  })
  // What is drawn for the message that was used must not come over what it led to.
  if (place.how === 'update') markReplaced(rim, shown.incoming)
  // Before it is sent: the next press may be here before the platform's answer is.
  const showing = rim.showings.begin(shown.answered.turnId)
  try {
    const sent = await sendFirst(responder, place.how, first)
    if (!sent.ok || !hasFiles) return
    const files = await draw(rim, shown, place.shared)
    if (showing.isReplaced) return
    await responder.editFirst(renderMessage(rim.words, shown.answered, { ...options, files }), files.files)
  } finally {
    showing.end()
  }
}

function markReplaced({ showings }: Rim, { wish }: Incoming): void {
  const turnId = wish.kind === 'press' || wish.kind === 'submit' ? readToken(wish.token)?.turnId : undefined
  if (turnId !== undefined) showings.replace(turnId)
}

/**
 * After waiting was said privately, that message becomes the answer. One for the crew is then shared in a second
 * message: the first one after waiting would be made private by the platform.
 */
async function showLate(rim: Rim, responder: Responder, shown: Shown, place: Place): Promise<void> {
  const files = await draw(rim, shown, false)
  const options = { ...renderOptions(shown, false), quiet: place.shared, files }
  await responder.editFirst(renderMessage(rim.words, shown.answered, options), files.files)
  if (!place.shared) return
  const shared = await draw(rim, shown, true)
  const toAll = { ...renderOptions(shown, true), files: shared }
  await responder.followUp(renderMessage(rim.words, shown.answered, toAll), shared.files)
}

async function draw(rim: Rim, { answered, incoming }: Shown, shared: boolean) {
  const drawn = await drawFiles(rim, answered, {
    locale: localeOf(answered, incoming, shared),
    mostBytes: incoming.mostFileBytes ?? DEFAULT_FILE_BYTES,
  })
  return { kind: 'ready' as const, ...drawn }
}

function renderOptions({ incoming, answered, guild, slow }: Shown, shared: boolean): RenderOptions {
  // In a direct message there is nobody to hide from, and a private message would vanish with the app.
  const isDirect = incoming.guild === null
  return {
    shared: shared || isDirect,
    locale: localeOf(answered, incoming, shared),
    guild,
    slow,
    owner: isDirect ? null : incoming.person.name,
  }
}

function localeOf(answered: Answered, incoming: Incoming, shared: boolean): string {
  return languageFor(answered, shared && incoming.guild !== null)
}
