import { describe, expect, test } from 'vitest'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import type { FillRequest } from '#src/calculator/mix/request.ts'
import { mass, output, rate, volume } from '#tests/quantity/read.ts'

const RATE = rate('0.113 oz wt/1000 ft2')
const ONE_GALLON = output('1 gal/1000 ft2')

const ask = (changes: Partial<FillRequest>) =>
  planFill({ rate: RATE, figures: { output: ONE_GALLON }, fill: volume('2 gal'), ...changes })

/** What every crew knows by experience. Source of all rows: common practice, no source. */
describe('common practice, no source', () => {
  test('two gallons at one gallon per 1,000 ft2 take 0.226 oz', () => {
    expect(ask({})).toMatchObject({ mix: { concentrate: { measured: { value: '0.226', unit: 'oz wt' } } } })
  })

  test('half as much per gallon for who puts out two', () => {
    const outcome = ask({
      figures: { output: output('2 gal/1000 ft2') },
      fill: volume('1 gal'),
      usualOutput: ONE_GALLON,
    })
    expect(outcome).toMatchObject({
      mix: {
        concentrate: { exact: { value: '0.0565', unit: 'oz wt' } },
        trap: { yours: { value: '0.0565' }, usual: { value: '0.113' } },
      },
    })
  })

  test('1.3 gal per 1,000 ft2, 0.5 gal of the same mix in a 2 gal tank, a 0.1 g scale: 3.6 g', () => {
    const outcome = ask({
      figures: { output: output('1.3 gal/1000 ft2') },
      inTank: { kind: 'same', volume: volume('0.5 gal') },
      tools: [{ kind: 'scale', name: 'scale', step: mass('0.1 g') }],
    })
    expect(outcome).toMatchObject({
      outcome: 'answer',
      mix: { concentrate: { measured: { value: '3.6', unit: 'g' } }, fillTo: { value: '2', unit: 'gal' } },
    })
  })

  test('1.5 gal made for one gallon, used at two: add none, fill to 3.0 gal, which a 2 gal can does not hold', () => {
    const outcome = ask({
      figures: { output: output('2 gal/1000 ft2') },
      inTank: { kind: 'other', volume: volume('1.5 gal'), rate: RATE, output: ONE_GALLON },
    })
    expect(outcome).toMatchObject({
      outcome: 'not-fit',
      addNone: true,
      fillTo: { value: '3', unit: 'gal' },
      capacity: { value: '2', unit: 'gal' },
    })
  })
})
