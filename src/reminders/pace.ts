import { setTimeout as pause } from 'node:timers/promises'

/** Resolves when the next message may leave. */
export type Pace = () => Promise<void>

/**
 * So many a second and no more, evenly: whoever comes next waits behind those that came before. What was not used is
 * not saved up, so that a quiet minute is no reason for a burst.
 * @param nowMs a clock that no one sets, in ms
 */
export function paceOf(
  perSecond: number,
  nowMs: () => number = () => performance.now(),
  wait: (ms: number) => Promise<unknown> = pause,
): Pace {
  const gapMs = 1000 / perSecond
  let freeAtMs = Number.NEGATIVE_INFINITY
  return async () => {
    const now = nowMs()
    const atMs = Math.max(freeAtMs, now)
    freeAtMs = atMs + gapMs
    if (atMs > now) await wait(atMs - now)
  }
}

/**
 * Messages a second that all processes together may send unasked. The platform takes 50 requests a second from a bot
 * (discord.com/developers/docs, topics/rate-limits), answers to interactions not counted; a first message to a person
 * takes two. The rest is left for what people wait for.
 */
export const PER_SECOND = 20

/** The share of a process that has so many of all shards: whoever dies takes its share along until it is back. */
export function ownPace(shards: { readonly ids: readonly unknown[]; readonly count: number } | null): Pace {
  return paceOf(shards === null ? PER_SECOND : (PER_SECOND * shards.ids.length) / shards.count)
}
