import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { mayI } from '#src/label/allow.ts'
import { addDays } from '#src/label/day.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { PastTreatment, Situation } from '#src/label/situation.ts'
import { compareOutcomes, strictest } from '#src/label/verdict.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { loadDemo } from '../../data/demo/load.ts'
import { situation, treatment } from './build.ts'

const { book } = loadDemo()
const withArea = book.filter((entry) =>
  entry.rateLines.some(({ rates }) => rates.some(({ high }) => /acre|ft2|ha/.test(high))),
)

const anyEntry = fc.constantFrom(...book)
const ounces = fc.integer({ min: 1, max: 5000 }).map((thousandths) => decimalText(big(thousandths).div(1000)))

/** A past treatment with any product of the demo book, in the unit that its form is measured in. */
const anyTreatment: fc.Arbitrary<PastTreatment> = fc
  .record({
    used: anyEntry,
    daysAgo: fc.integer({ min: -60, max: 800 }),
    amount: ounces,
    sameGround: fc.constantFrom(true, false, 'unknown' as const),
  })
  .map(({ used, daysAgo, amount, sameGround }) => {
    const unit = used.form === 'dry' ? 'oz wt' : 'fl oz'
    return treatment(used, addDays('2025-06-30', -daysAgo), `${amount} ${unit}/1000 ft2`, { sameGround })
  })

const turfs = [
  'tall-fescue',
  'kbg',
  'bermuda',
  'bermuda-hybrid',
  'zoysia-coarse',
  'st-augustine',
  'centipede',
  'kikuyu',
]
const weeds = ['nutsedge-yellow', 'dandelion', 'crab-smooth', 'annual-blue', 'moss', 'anything else']

/** Nearly anything that a crew may ask. */
const anySituation: fc.Arbitrary<Situation> = fc
  .record(
    {
      turfs: fc.oneof(fc.constant('unknown' as const), fc.subarray(turfs, { maxLength: 2 })),
      dormant: fc.subarray(turfs),
      weed: fc.constantFrom(...weeds),
      season: fc.constantFrom('spring' as const, 'summer' as const, 'fall' as const, 'winter' as const),
      treatment: fc.constantFrom('first' as const, 'repeat' as const),
      rate: ounces.map((value) => areaRate(value, 'oz wt', { value: '1', unit: '1000 ft2' })),
      adjuvant: fc.constantFrom('with' as const, 'without' as const),
      state: fc.constantFrom('NC', 'NY'),
      licensed: fc.boolean(),
      treatments: fc.array(anyTreatment, { maxLength: 4 }),
      seededOn: fc.integer({ min: 0, max: 300 }).map((days) => addDays('2025-06-30', -days)),
      mowings: fc.integer({ min: 0, max: 5 }),
    },
    { requiredKeys: ['turfs', 'licensed', 'treatments'] },
  )
  .map((parts) => situation(parts))

/** As the store gives it out: nobody can change it. */
function asKept<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.values(value).forEach(asKept)
    Object.freeze(value)
  }
  return value
}
const kept = new Map(book.map((entry) => [entry, asKept(structuredClone(entry))]))

describe('a verdict', () => {
  test('of an entry that cannot change is remembered, and is the one that would be found anew', () => {
    fc.assert(
      fc.property(anyEntry, fc.array(anySituation, { minLength: 1, maxLength: 3 }), (entry, asked) => {
        const frozen = kept.get(entry) ?? entry
        const anew = asked.map((one) => mayI(entry, one))
        const first = asked.map((one) => mayI(frozen, one))
        expect(first).toEqual(anew)
        expect(asked.map((one) => mayI(frozen, structuredClone(one)))).toEqual(anew)
        expect(mayI(frozen, asked.at(-1) as Situation)).toBe(first.at(-1))
      }),
    )
  })

  test('is as strict as its strictest reason, which comes first', () => {
    fc.assert(
      fc.property(anyEntry, anySituation, (entry, asked) => {
        const { outcome, reasons } = mayI(entry, asked)
        expect(outcome).toBe(strictest(reasons))
        expect(reasons[0]?.outcome ?? 'answer').toBe(outcome)
      }),
    )
  })

  test('never gets milder by one more treatment', () => {
    fc.assert(
      fc.property(anyEntry, anySituation, anyTreatment, (entry, asked, more) => {
        const before = mayI(entry, asked)
        const after = mayI(entry, { ...asked, treatments: [...asked.treatments, more] })
        expect(compareOutcomes(after.outcome, before.outcome)).toBeGreaterThanOrEqual(0)
      }),
    )
  })

  test('does not depend on the order of the treatments', () => {
    fc.assert(
      fc.property(anyEntry, anySituation, (entry, asked) => {
        const turned = { ...asked, treatments: [...asked.treatments].reverse() }
        const told = ({ outcome, reasons, earliestNext, leftThisYear }: ReturnType<typeof mayI>) => ({
          outcome,
          earliestNext,
          reasons: reasons.map((reason) => JSON.stringify(reason)).sort(),
          left: leftThisYear.map(({ left }) => left.value),
        })
        expect(told(mayI(entry, turned))).toEqual(told(mayI(entry, asked)))
      }),
    )
  })

  test('of the earliest next day is not refused for interval, count or year', () => {
    const waiting = ['label.interval', 'label.treatments-used-up', 'label.above-year', 'label.year-used-up']
    fc.assert(
      fc.property(anyEntry, anySituation, (entry, asked) => {
        const { earliestNext } = mayI(entry, asked)
        if (earliestNext === null) return
        expect(earliestNext >= asked.today).toBe(true)
        const then = mayI(entry, { ...asked, today: earliestNext })
        expect(
          then.reasons.filter(({ id, outcome }) => outcome === 'refusal' && waiting.includes(id)),
        ).toEqual([])
      }),
    )
  })

  test('of a rate at a ceiling is no refusal for the amount, a hair above it is one', () => {
    const amounts = ['label.above-maximum', 'label.above-application', 'label.above-year']
    const refused = (entry: LabelEntry, asked: Situation) =>
      mayI(entry, asked).reasons.filter(({ id, outcome }) => outcome === 'refusal' && amounts.includes(id))
        .length > 0
    const hairs = fc.integer({ min: 1, max: 1000 }).map((ppm) => big(1).plus(big(ppm).div(1_000_000)))
    fc.assert(
      fc.property(fc.constantFrom(...withArea), fc.nat(), hairs, (entry, at, hair) => {
        const chosen = entry.rateLines[at % entry.rateLines.length]
        if (chosen === undefined) return
        const asked = situation({ turfs: chosen.turfs[0]?.taxa.slice(0, 1) ?? [], line: chosen.id })
        const highest = mayI(entry, asked).ceilings.find(({ why }) => why === 'rate-line')?.rates ?? []
        for (const rate of highest.filter(({ kind }) => kind === 'area')) {
          expect(refused(entry, { ...asked, rate })).toBe(false)
          const above = { ...rate, value: decimalText(big(rate.value).times(hair)) }
          expect(refused(entry, { ...asked, rate: above })).toBe(true)
        }
      }),
    )
  })
})
