import type { Judged } from '#src/efficacy/judge.ts'
import { judgeRating } from '#src/efficacy/judge.ts'
import type { Rating } from '#src/efficacy/rating.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { entry, line } from '../label/build.ts'

/** The application that visits are counted from. */
export const TREATED_ON = '2026-05-04'

/** One plot, a green untreated spot, an unhurt lawn. */
export function rating(parts: Partial<Rating> = {}): Rating {
  return {
    on: '2026-06-01',
    by: 'bex',
    isFirstLook: false,
    plots: [{ plot: '1', brownPercent: 50 }],
    untreated: { brownPercent: 0 },
    injury: 9,
    regrowth: false,
    seedlings: false,
    rain: 'no',
    mown: 'no',
    ...parts,
  }
}

/** Visits with the same percentage on one plot, `[day, percent]`. */
export function visits(
  ...rows: readonly (readonly [on: string, percent: number, parts?: Partial<Rating>])[]
): Judged[] {
  return rows.map(([on, brownPercent, parts]) =>
    judgeRating(rating({ on, plots: [{ plot: '1', brownPercent }], ...parts }), TREATED_ON),
  )
}

/** An invented label: 0.113 oz at a time, at most 0.2 oz a year on the same ground, 28 days between. */
export const nutsedgeLabel: LabelEntry = entry({
  rateLines: [line({ rates: [{ high: '0.113 oz wt/1000 ft2' }] })],
  limits: {
    perYear: [
      {
        rates: ['0.2 oz wt/1000 ft2'],
        period: 'calendar',
        counts: 'product',
        line: 'At most 0.2 oz per 1,000 sq ft in a year.',
        page: '3',
      },
    ],
    interval: [{ days: 28, counts: 'product', line: 'Wait 28 days before a second treatment.', page: '3' }],
  },
})
