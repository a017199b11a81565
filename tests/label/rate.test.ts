import { describe, expect, test } from 'vitest'
import { mayI } from '#src/label/allow.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { outputOf } from '#src/label/figures.ts'
import type { Situation } from '#src/label/situation.ts'
import { dry, entry, line, reasonOf, situation, standing, wet } from './build.ts'

const LABEL_SAYS = 'invented label, by hand'

/** 0.113 × 43.56 is 4.92228, printed as 4.9. */
const pair = entry({
  rateLines: [line({ rates: [{ high: '0.113 oz wt/1000 ft2' }, { high: '4.9 oz wt/acre' }] })],
})
const apart = entry({
  rateLines: [line({ rates: [{ high: '0.12 oz wt/1000 ft2' }, { high: '4.9 oz wt/acre' }] })],
})
const liquid: Partial<LabelEntry> = {
  form: 'liquid',
  formulation: 'SL',
  actives: [{ name: 'inventol', strength: '4 lb ai/gal' }],
}
const spot = entry({
  ...liquid,
  rateLines: [line({ rates: [{ low: '0.25 % v/v', high: '0.5 % v/v' }] })],
  limits: { perApplication: [{ rates: ['2 pt/acre'], line: 'Never above 2 pt per acre.', page: '3' }] },
})
const mixed = entry({ rateLines: [line({ rates: [{ high: '2 lb/100 gal' }] })] })
const byActive = entry({ ...liquid, rateLines: [line({ rates: [{ high: '1 lb ai/acre' }] })] })

const rows: readonly [what: string, label: LabelEntry, asked: Partial<Situation>, stands: string[]][] = [
  ['at the maximum', entry(), { rate: dry('0.5 oz wt/1000 ft2') }, []],
  ['a hair above it', entry(), { rate: dry('0.5000001 oz wt/1000 ft2') }, ['refusal label.above-maximum']],
  ['above it in another unit', entry(), { rate: dry('22 oz wt/acre') }, ['refusal label.above-maximum']],
  ['within the range', entry(), { rate: dry('0.45 oz wt/1000 ft2') }, []],
  ['below the lowest', entry(), { rate: dry('0.3 oz wt/1000 ft2') }, ['heads-up label.below-lowest']],
  ['below it by what measuring misses', entry(), { rate: dry('0.385 oz wt/1000 ft2') }, []],
  ['a pair, in its first unit', pair, { rate: dry('0.113 oz wt/1000 ft2') }, []],
  ['a pair, in its second unit', pair, { rate: dry('4.9 oz wt/acre') }, []],
  [
    'a pair, above in the unit asked',
    pair,
    { rate: dry('4.92 oz wt/acre') },
    ['refusal label.above-maximum'],
  ],
  ['a pair, in a third unit', pair, { rate: dry('3.44 g/100 m2') }, []],
  [
    'a pair that no rounding explains',
    apart,
    { rate: dry('0.12 oz wt/1000 ft2') },
    ['hold label.pair-disagrees'],
  ],
  ['a share of the mix', spot, { rate: wet('0.5 % v/v'), output: outputOf('30 gal/acre') }, []],
  [
    'a share that is too strong',
    spot,
    { rate: wet('0.6 % v/v'), output: outputOf('30 gal/acre') },
    ['refusal label.above-maximum'],
  ],
  [
    // 0.5 % of 100 gal/acre is 4 pt/acre.
    'a share that becomes too much on the ground',
    spot,
    { rate: wet('0.5 % v/v'), output: outputOf('100 gal/acre') },
    ['refusal label.above-application'],
  ],
  [
    'a share while nobody knows the output',
    spot,
    { rate: wet('0.5 % v/v') },
    ['question label.figure-needed'],
  ],
  ['per 100 gallons', mixed, { rate: dry('2 lb/100 gal') }, []],
  ['per 100 gallons, said per gallon', mixed, { rate: dry('0.32 oz wt/gal') }, []],
  ['too much per gallon', mixed, { rate: dry('0.33 oz wt/gal') }, ['refusal label.above-maximum']],
  // 1 lb ai/acre out of 4 lb ai/gal is 2 pt/acre.
  ['a limit of active, asked as product', byActive, { rate: wet('2 pt/acre') }, []],
  [
    'a limit of active, passed by product',
    byActive,
    { rate: wet('2.1 pt/acre') },
    ['refusal label.above-maximum'],
  ],
]

describe(`how much (${LABEL_SAYS})`, () => {
  test.each(rows)('%s', (_what, label, asked, stands) => {
    expect(standing(mayI(label, situation(asked)))).toEqual(stands)
  })

  test('a refusal names the maximum in the unit that was asked for, and the line', () => {
    const refused = reasonOf(mayI(pair, situation({ rate: dry('5 oz wt/acre') })), 'label.above-maximum')
    expect(refused).toMatchObject({
      line: 'Nutsedge in tall fescue: 0.4 to 0.5 oz per 1,000 sq ft.',
      page: '4',
      with: { maximum: { value: '4.9', unit: 'oz wt/acre' }, rate: { value: '5', unit: 'oz wt/acre' } },
    })
  })

  test('a rate above every line is refused before anybody has chosen', () => {
    const two = entry({ rateLines: [line(), line({ id: 'more', rates: [{ high: '0.6 oz wt/1000 ft2' }] })] })
    expect(standing(mayI(two, situation({ rate: dry('0.55 oz wt/1000 ft2') })))).toEqual([
      'question label.choose-line',
    ])
    expect(mayI(two, situation({ rate: dry('0.7 oz wt/1000 ft2') })).outcome).toBe('refusal')
  })

  test('the ceilings are the limits of the one line, each in its printed units', () => {
    const [first] = mayI(pair, situation()).ceilings
    expect(first).toMatchObject({
      why: 'rate-line',
      rates: [
        { value: '0.113', unit: 'oz wt' },
        { value: '4.9', unit: 'oz wt' },
      ],
      page: '4',
    })
  })
})

describe('less than the label', () => {
  const less = { rate: dry('0.2 oz wt/1000 ft2') }

  test('is refused where the label forbids it', () => {
    const strict = entry({ limits: { lessForbidden: { line: 'Do not use less.', page: '2' } } })
    expect(standing(mayI(strict, situation(less)))).toEqual(['refusal label.less-forbidden'])
  })

  test('is refused where the state allows it in agriculture only', () => {
    expect(standing(mayI(entry(), situation({ ...less, state: 'NY' })))).toEqual([
      'refusal label.less-refused-in-state',
    ])
  })
})

describe('how much mix', () => {
  const least = entry({ rateLines: [line({ minimumOutput: '1 gal/1000 ft2' })] })
  const acre = entry({ limits: { minimumOutput: { output: '30 gal/acre' } } })

  test.each([
    ['at the least', least, '1 gal/1000 ft2', []],
    ['at the least, said per acre', least, '43.56 gal/acre', []],
    ['below the least', least, '43 gal/acre', ['refusal label.below-output']],
    ['below the least of the whole label', acre, '0.5 gal/1000 ft2', ['refusal label.below-output']],
    ['above the least of the whole label', acre, '1 gal/1000 ft2', []],
  ] as const)('%s', (_what, label, output, stands) => {
    expect(standing(mayI(label, situation({ output: outputOf(output) })))).toEqual(stands)
  })

  test('the least is told while nobody knows the output', () => {
    expect(reasonOf(mayI(least, situation()), 'label.mind-output')?.outcome).toBe('answer')
  })
})
