import type { Reason } from '#src/label/verdict.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import type { DecideSettings } from './decide-settings.ts'
import { inPercent, percentOf } from './shown.ts'
import type { Rated } from './trend.ts'
import { changeBetween, disagreeing, lastTwo } from './trend.ts'
import { why } from './why.ts'

/** Visits, or plots, that cannot all be right. */
export function contradictions(rated: readonly Rated[], settings: DecideSettings): readonly Reason[] {
  const [last, before] = lastTwo(rated)
  if (last === undefined) return []
  const pair = disagreeing(rated, settings.contradictPoints)
  const { least, most, plots } = last.control
  const spread = big(most).minus(least)
  const fall = before === undefined ? big(0) : big(changeBetween(before, last)).neg()
  const isUnexplained = !last.regrowth && !last.seedlings
  return [
    ...(pair === null
      ? []
      : [
          why('hold', 'disagree', {
            one: percentOf(pair[0]),
            other: percentOf(pair[1]),
            day: { day: pair[0].on },
          }),
        ]),
    ...(plots > 1 && compareNumbers(spread, settings.plotsApartPoints) >= 0
      ? [why('hold', 'apart', { least: inPercent(least), most: inPercent(most) })]
      : []),
    ...(before !== undefined && isUnexplained && compareNumbers(fall, settings.contradictPoints) >= 0
      ? [why('hold', 'dropped', { before: percentOf(before), now: percentOf(last) })]
      : []),
  ]
}
