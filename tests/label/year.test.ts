import { describe, expect, test } from 'vitest'
import { mayI } from '#src/label/allow.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { YearlyLimit } from '#src/label/limits.ts'
import type { PastTreatment, Situation } from '#src/label/situation.ts'
import { dry, entry, line, reasonOf, situation, standing, treatment, wet } from './build.ts'

// Figures of invented labels, worked out by hand beside each row.
const FULL = '0.113 oz wt/1000 ft2'
const rates = [line({ rates: [{ high: FULL }, { high: '4.9 oz wt/acre' }] })]
const limit = { rates: ['0.2 oz wt/1000 ft2', '8.7 oz wt/acre'], line: 'At most 0.2 oz a year.', page: '3' }
const rolling = entry({
  rateLines: rates,
  limits: { perYear: [{ ...limit, period: 'rolling', counts: 'product' }] },
})
const calendar = entry({
  rateLines: rates,
  limits: { perYear: [{ ...limit, period: 'calendar', counts: 'product' }] },
})
const done = (on: string, rate = FULL, parts: Partial<PastTreatment> = {}) =>
  treatment(rolling, on, rate, parts)

const rows: readonly [what: string, label: LabelEntry, asked: Partial<Situation>, stands: string[]][] = [
  ['nothing used yet', rolling, { rate: dry(FULL) }, []],
  // 0.113 + 0.113 = 0.226, above 0.2
  [
    'a second full rate',
    rolling,
    { rate: dry(FULL), treatments: [done('2025-05-01')] },
    ['refusal label.above-year'],
  ],
  // 0.113 + 0.087 = 0.2
  [
    'just what is left',
    rolling,
    { rate: dry('0.087 oz wt/1000 ft2'), treatments: [done('2025-05-01')] },
    ['heads-up label.below-lowest'],
  ],
  [
    'a hair more than what is left',
    rolling,
    { rate: dry('0.0870001 oz wt/1000 ft2'), treatments: [done('2025-05-01')] },
    ['refusal label.above-year', 'heads-up label.below-lowest'],
  ],
  [
    'no rate yet, and less left than the rate',
    rolling,
    { treatments: [done('2025-05-01')] },
    ['heads-up label.year-nearly'],
  ],
  [
    'no rate yet, and nothing left',
    rolling,
    { treatments: [done('2025-05-01'), done('2025-06-01', '0.087 oz wt/1000 ft2')] },
    ['refusal label.year-used-up', 'heads-up label.group-again'],
  ],
  [
    'the last day of a rolling year',
    rolling,
    { rate: dry(FULL), treatments: [done('2024-07-01')] },
    ['refusal label.above-year'],
  ],
  ['the day after a rolling year', rolling, { rate: dry(FULL), treatments: [done('2024-06-30')] }, []],
  ['last year, by the calendar', calendar, { rate: dry(FULL), treatments: [done('2024-12-31')] }, []],
  [
    'this year, by the calendar',
    calendar,
    { rate: dry(FULL), treatments: [done('2025-01-01')] },
    ['refusal label.above-year'],
  ],
  [
    'a log written after a later treatment',
    rolling,
    { today: '2025-03-01', rate: dry(FULL), treatments: [done('2025-06-01')] },
    ['refusal label.above-year'],
  ],
  [
    'other ground',
    rolling,
    { rate: dry(FULL), treatments: [done('2025-05-01', FULL, { sameGround: false })] },
    [],
  ],
  [
    'nobody knows whether it is the same ground',
    rolling,
    { rate: dry(FULL), treatments: [done('2025-05-01', FULL, { sameGround: 'unknown' })] },
    ['refusal label.above-year'],
  ],
  [
    'another product, where the label counts its own only',
    rolling,
    { rate: dry(FULL), treatments: [done('2025-05-01', FULL, { entry: 'Another 75 WDG' })] },
    [],
  ],
  // 4.9 + 3.8 = 8.7 oz/acre, though 4.9 is 0.1125 and 3.8 is 0.0872 per 1,000 ft2
  [
    'the pair counts in the unit that was asked',
    rolling,
    { rate: dry('3.8 oz wt/acre'), treatments: [done('2025-05-01', '4.9 oz wt/acre')] },
    ['heads-up label.below-lowest'],
  ],
]

describe('how much in a year', () => {
  test.each(rows)('%s', (_what, label, asked, stands) => {
    expect(standing(mayI(label, situation(asked)))).toEqual(stands)
  })

  test('the refusal says the limit, what is used, what is left and the line', () => {
    const verdict = mayI(rolling, situation({ rate: dry(FULL), treatments: [done('2025-05-01')] }))
    expect(reasonOf(verdict, 'label.above-year')).toMatchObject({
      line: 'At most 0.2 oz a year.',
      page: '3',
      with: {
        limit: { value: '0.2', unit: 'oz wt/1000 ft2' },
        used: { value: '0.113' },
        left: { value: '0.087' },
        rate: { value: '0.113' },
      },
    })
  })

  test('what is left is told, and is a ceiling of the next treatment', () => {
    const verdict = mayI(rolling, situation({ treatments: [done('2025-05-01')] }))
    expect(verdict.leftThisYear).toMatchObject([
      { limit: { value: '0.2' }, used: { value: '0.113' }, left: { value: '0.087' }, freesOn: '2026-05-01' },
    ])
    expect(verdict.ceilings.at(-1)).toMatchObject({
      why: 'left-this-year',
      rates: [{ value: '0.087', unit: 'oz wt' }],
    })
  })

  test('a treatment of which the log gives no amount is a hold', () => {
    const { product: _, ...silent } = done('2025-05-01')
    const verdict = mayI(rolling, situation({ rate: dry('0.05 oz wt/1000 ft2'), treatments: [silent] }))
    expect(standing(verdict)).toContain('hold label.amount-unknown')
  })
})

describe('one active in several products', () => {
  const capped: YearlyLimit = {
    rates: ['3 lb ai/acre'],
    period: 'calendar',
    counts: 'active',
    active: 'sharedol',
  }
  const liquid = entry({
    name: 'Invented 4 EC',
    form: 'liquid',
    formulation: 'EC',
    actives: [{ name: 'sharedol', strength: '4 lb ai/gal', acid: '3 lb ae/gal' }],
    rateLines: [line({ rates: [{ high: '4 pt/acre' }] })],
    limits: { perYear: [capped] },
  })
  const granules = entry({
    name: 'Invented 1 G',
    formulation: 'G',
    actives: [{ name: 'Sharedol', strength: '1 % ai' }],
    rateLines: [line({ rates: [{ high: '150 lb/acre' }] })],
  })

  // 150 lb/acre of 1 % is 1.5 lb ai; 3 pt of 4 lb/gal is 1.5 lb ai: together 3.
  test.each([
    ['up to the limit', '3 pt/acre', []],
    ['above it', '3.1 pt/acre', ['refusal label.above-year']],
  ] as const)('counts together: %s', (_what, rate, stands) => {
    const past = [treatment(granules, '2025-04-01', '150 lb/acre')]
    const asked = situation({ rate: wet(rate), treatments: past })
    expect(standing(mayI(liquid, asked)).filter((one) => !one.endsWith('below-lowest'))).toEqual(stands)
  })

  test('what is left is told as the active and capped as product', () => {
    const past = [treatment(granules, '2025-04-01', '150 lb/acre')]
    const verdict = mayI(liquid, situation({ treatments: past }))
    expect(verdict.leftThisYear).toMatchObject([
      { active: 'sharedol', left: { value: '1.5', unit: 'lb', of: 'ai' } },
    ])
    expect(verdict.ceilings.at(-1)?.rates).toMatchObject([{ value: '3', unit: 'pt', of: 'product' }])
  })

  test('a limit in acid equivalent counts acid equivalent', () => {
    const acid = { ...liquid, limits: { perYear: [{ ...capped, rates: ['3 lb ae/acre'] }] } }
    // 4 pt of 3 lb ae/gal is 1.5 lb ae.
    const twice = [treatment(acid, '2025-02-01', '4 pt/acre'), treatment(acid, '2025-04-01', '4 pt/acre')]
    expect(standing(mayI(acid, situation({ rate: wet('4 pt/acre'), treatments: twice.slice(1) })))).toEqual(
      [],
    )
    expect(standing(mayI(acid, situation({ rate: wet('4 pt/acre'), treatments: twice })))).toEqual([
      'refusal label.above-year',
    ])
  })

  test('a limit of product that counts the active is worked through the active', () => {
    const shared = { ...liquid, limits: { perYear: [{ ...capped, rates: ['6 pt/acre'] }] } }
    const past = [treatment(granules, '2025-04-01', '150 lb/acre')]
    expect(standing(mayI(shared, situation({ rate: wet('4 pt/acre'), treatments: past })))).toEqual([
      'refusal label.above-year',
    ])
  })
})
