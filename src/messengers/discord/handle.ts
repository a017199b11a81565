import { BoundedMap } from '#src/memory/bounded-map.ts'
import { complete } from './complete.ts'
import { converse } from './converse.ts'
import { sayPlainly } from './language.ts'
import { renderNotice } from './notice.ts'
import { describeError } from './platform-error.ts'
import { type Incoming, readInteraction } from './read.ts'
import { responderFor } from './responder.ts'
import type { Rim } from './rim.ts'
import { sendNotice } from './send.ts'

/** What listens to the gateway: takes every interaction once, and can be waited for. */
export interface Handler {
  /** Takes an interaction as the gateway sent it. Never throws, never rejects. */
  take(raw: unknown): void
  /**
   * From now on new requests are told to come again in a minute, or left to another process that hears them as well;
   * resolves when all others are answered.
   */
  drain(newcomers: 'turn-away' | 'leave-to-other'): Promise<void>
  readonly inFlight: number
}

/** Ids kept to know a dispatch that comes twice; far more than arrive while a token lives. */
const REMEMBERED = 20_000

export function openHandler(rim: Rim): Handler {
  const seen = new BoundedMap<string, true>(REMEMBERED)
  const running = new Set<Promise<void>>()
  let draining: Parameters<Handler['drain']>[0] | null = null

  const takeOnce = async (raw: unknown): Promise<void> => {
    const read = readInteraction(raw)
    if (!read.ok) return rim.log.error({ problem: read.problem }, 'an interaction could not be read')
    const { incoming } = read
    if (draining === 'leave-to-other') return rim.log.debug({ interaction: incoming.id }, 'left to the next')
    if (seen.has(incoming.id)) return rim.log.debug({ interaction: incoming.id }, 'came twice')
    seen.set(incoming.id, true)
    return answerSafely(rim, incoming, draining !== null)
  }

  return {
    take(raw) {
      const work = takeOnce(raw)
        .catch((error) => rim.log.error({ error: describeError(error) }, 'an interaction was lost'))
        .finally(() => running.delete(work))
      running.add(work)
    },
    async drain(newcomers) {
      draining = newcomers
      while (running.size > 0) await Promise.all(running)
    },
    get inFlight() {
      return running.size
    },
  }
}

/** One boundary for what nobody expected: the person gets an apology with a number, the log the rest. */
async function answerSafely(rim: Rim, incoming: Incoming, draining: boolean): Promise<void> {
  const { locale } = incoming.person
  const responder = responderFor(rim.rest, rim.log, incoming)
  try {
    if (incoming.wish.kind === 'suggest') return await complete(rim, responder, incoming, incoming.wish)
    if (draining)
      return await sendNotice(responder, renderNotice(sayPlainly(rim.words, locale, 'discord.restarting')))
    await converse(rim, responder, incoming)
  } catch (error) {
    const number = errorNumber(incoming.id)
    rim.log.error({ number, interaction: incoming.id, error: describeError(error) }, 'a request failed')
    await sendNotice(responder, renderNotice(sayPlainly(rim.words, locale, 'discord.error', { number })))
  }
}

/** Short enough to read out over the telephone, and found again in the log. */
function errorNumber(interactionId: string): string {
  return BigInt(interactionId).toString(36).slice(-7).toUpperCase()
}
