import type { Day } from '#src/label/day.ts'
import type { Reason } from '#src/label/verdict.ts'
import { compareNumbers } from '#src/quantity/big.ts'
import type { DecideSettings } from './decide-settings.ts'
import type { Judged } from './judge.ts'
import { figuresOf, inPercent, percentOf, pointsGained } from './shown.ts'
import type { Rated } from './trend.ts'
import { changeBetween } from './trend.ts'
import { why } from './why.ts'

/** Why nobody can decide yet: nothing seen, nothing to compare with, or too soon. */
export function earlyReasons(
  judged: readonly Judged[],
  last: Rated | undefined,
  judgeFrom: Day,
): readonly Reason[] {
  const newest = newestOf(judged)
  if (newest === undefined) return [why('answer', 'no-rating')]
  if (last === undefined || newest.control === null)
    return [why('answer', 'cannot-judge', { day: { day: newest.on } })]
  if (last.on < judgeFrom)
    return [why('answer', 'too-early', { from: { day: judgeFrom }, now: percentOf(last) })]
  return last.isFirstLook ? [why('answer', 'first-look')] : []
}

/** The visit of the latest day. */
export function newestOf(judged: readonly Judged[]): Judged | undefined {
  return [...judged].sort((a, b) => a.day - b.day).at(-1)
}

/** It is still working, or one visit alone cannot tell; not so when it has come as far as it needs to. */
export function movingReasons(
  last: Rated,
  before: Rated | undefined,
  settings: DecideSettings,
): readonly Reason[] {
  if (notDone(last, settings).length === 0) return []
  if (before === undefined) return [why('answer', 'one-rating')]
  if (compareNumbers(changeBetween(before, last), settings.movingPoints) < 0) return []
  const change = pointsGained(last, before)
  return [why('answer', 'moving', { before: percentOf(before), now: percentOf(last), change })]
}

/** What still speaks for a second application. */
export function notDone(last: Rated, { donePercent }: DecideSettings): readonly Reason[] {
  const isLow = compareNumbers(last.control.mean, donePercent) < 0
  const isUneven = !isLow && compareNumbers(last.control.least, donePercent) < 0
  return [
    ...(isLow ? [why('answer', 'not-enough', { ...figuresOf(last), wanted: inPercent(donePercent) })] : []),
    ...(isUneven ? [why('answer', 'mostly-done', { least: inPercent(last.control.least) })] : []),
    ...(last.regrowth ? [why('answer', 'plant-back')] : []),
    ...(last.seedlings ? [why('answer', 'seedlings')] : []),
  ]
}
