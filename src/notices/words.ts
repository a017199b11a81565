import type { Fact } from '#src/conversation/reply.ts'
import { literalText, say, type Text } from '#src/conversation/text.ts'
import { recordName } from '#src/record/number.ts'
import type { RuleSet } from '#src/record/rule-set.ts'
import type { Notice } from './notice.ts'

const timeOf = (atMs: number, zone: string) => ({ atMs, zone, style: 'date-time' }) as const

/** One line of what holds now: `No mowing until Wed, May 6, 2026, 10:00 AM.` */
export function sayHolds({ kind, untilMs, sunsetOn }: Notice, zone: string): Text {
  if (sunsetOn !== undefined) return say('notices.holds-sunset', { day: { day: sunsetOn } })
  if (untilMs === null) return say(kind === 'water-in' ? 'notices.water-in-soon' : 'notices.until-dry')
  return say(`notices.holds-${kind}`, { at: timeOf(untilMs, zone) })
}

/** The title of the message that comes when a wait is over, or while there is time left for a task. */
export function sayNow({ kind, untilMs }: Notice, place: Text, zone: string, nowMs: number): Text {
  const at = timeOf(untilMs ?? nowMs, zone)
  if (kind === 'water-in' && untilMs !== null && untilMs < nowMs)
    return say('notices.water-in-late', { place, at })
  return say(`notices.now-${kind}`, { place, at })
}

/** Who says so: labels by their products, else the table of the state. */
export function sayWhoSays({ kind, products }: Notice, { state, isFallback }: RuleSet): readonly Text[] {
  if (products.length > 0) return [say('notices.by-label', { products: { all: [...products] } })]
  if (kind !== 'sign-down' && kind !== 'customer-copy') return []
  return isFallback
    ? [say('notices.by-strict')]
    : [say('notices.by-state', { state: literalText(state.name), agency: literalText(state.agency) })]
}

/** Names of what a notice says, for scripts. */
export function noticeFacts({ kind, untilMs }: Notice, recordNumber: number): Fact[] {
  return [
    { name: 'record', value: recordName(recordNumber) },
    { name: 'notice', value: kind },
    ...(untilMs === null ? [] : [{ name: 'due', value: untilFact(untilMs) }]),
  ]
}

/** The time as a fact; `soon` where no clock tells it. */
export function untilFact(untilMs: number | null): string {
  return untilMs === null ? 'soon' : new Date(untilMs).toISOString()
}
