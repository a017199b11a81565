import { crewNames } from './crew-names.ts'
import { type CrewsOf, crewFinder } from './crews.ts'
import { type DeliverOnDiscord, deliverer } from './deliver.ts'
import { type Handler, openHandler } from './handle.ts'
import { memberFinder } from './members.ts'
import type { Rim } from './rim.ts'
import { openShowings } from './showings.ts'

/** Both doors on Discord: what is asked, and what leaves unasked. */
export function answerOn(
  parts: Omit<Rim, 'crews' | 'showings' | 'openSinceMs'> & {
    readonly crewsOf: CrewsOf
    readonly pausesMs?: readonly number[]
  },
): { readonly handler: Handler; readonly deliver: DeliverOnDiscord } {
  const { rest, log, nowMs } = parts
  const crews = crewFinder({
    crewsOf: parts.crewsOf,
    nameOf: crewNames(rest, log, nowMs),
    isMember: memberFinder(rest, log, nowMs),
  })
  const handler = openHandler({ ...parts, crews, showings: openShowings(), openSinceMs: nowMs() })
  return { handler, deliver: deliverer(parts) }
}
