import { describe, expect, test } from 'vitest'
import { mayI } from '#src/label/allow.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { Limits } from '#src/label/limits.ts'
import type { Situation } from '#src/label/situation.ts'
import { entry, reasonOf, situation, standing } from './build.ts'

const limited = (limits: Limits) => entry({ limits })
const F = (value: string) => ({ value, unit: 'F' }) as const
const heat = limited({
  temperature: { most: '85 F', least: '50 F', line: 'Between 50 and 85 F.', page: '4' },
})
const wind = limited({ wind: { most: '10 mph', least: '3 mph' } })
const rain = limited({ rainFree: { hours: 4 } })
const water = limited({ waterBuffer: { distance: '25 ft' } })
const mown = limited({ mowing: { daysBefore: 2, daysAfter: 2 } })
const seed = limited({ newSeed: { days: 28, mowings: 3 }, newSod: { days: 30 } })
const needed = limited({
  adjuvant: { rule: 'needed', kind: 'nonionic surfactant', rate: '0.25 % v/v', line: 'Add it.' },
})
const forbidden = limited({ adjuvant: { rule: 'forbidden', line: 'Add none.' } })
const partners = limited({ tankMix: { allowed: ['Good Partner'], forbidden: ['Bad Partner'] } })

const rows: readonly [what: string, label: LabelEntry, asked: Partial<Situation>, stands: string[]][] = [
  ['as hot as the label allows', heat, { conditions: { temperature: F('85') } }, []],
  ['hotter', heat, { conditions: { temperature: F('85.1') } }, ['refusal label.too-hot']],
  [
    'hotter, measured in Celsius',
    heat,
    { conditions: { temperature: { value: '30', unit: 'C' } } },
    ['refusal label.too-hot'],
  ],
  ['colder', heat, { conditions: { temperature: F('49') } }, ['refusal label.too-cold']],
  ['as windy as the label allows', wind, { conditions: { wind: { value: '10', unit: 'mph' } } }, []],
  ['windier', wind, { conditions: { wind: { value: '11', unit: 'mph' } } }, ['refusal label.too-windy']],
  ['stiller', wind, { conditions: { wind: { value: '2', unit: 'mph' } } }, ['refusal label.too-calm']],
  ['rain too soon', rain, { conditions: { rainInHours: 3 } }, ['hold label.rain-too-soon']],
  ['rain late enough', rain, { conditions: { rainInHours: 4 } }, []],
  ['water as near as the label allows', water, { water: { value: '25', unit: 'ft' } }, []],
  ['nearer', water, { water: { value: '7.6', unit: 'm' } }, ['refusal label.water-too-near']],
  ['nobody knows how near', water, { water: 'unknown' }, ['hold label.water-unknown']],
  ['no water at all', water, { water: 'none' }, []],
  ['mown yesterday', mown, { mownOn: '2025-06-29' }, ['hold label.just-mown']],
  ['mown two days ago', mown, { mownOn: '2025-06-28' }, []],
  [
    'young seed',
    seed,
    { seededOn: '2025-06-03', mowings: 2 },
    ['refusal label.new-seed-days', 'refusal label.new-seed-mowings'],
  ],
  ['seed old enough, mown often enough', seed, { seededOn: '2025-06-02', mowings: 3 }, []],
  [
    'seed old enough, nobody counted',
    seed,
    { seededOn: '2025-06-02' },
    ['hold label.new-seed-mowings-unknown'],
  ],
  ['seed of last year, nobody counted', seed, { seededOn: '2024-09-01' }, []],
  ['young sod', seed, { soddedOn: '2025-06-01' }, ['refusal label.new-sod-days']],
  ['adjuvant needed, nothing said', needed, {}, ['heads-up label.adjuvant-needed-rate']],
  ['adjuvant needed and there', needed, { adjuvant: 'with' }, []],
  ['adjuvant needed and left out', needed, { adjuvant: 'without' }, ['refusal label.adjuvant-missing']],
  ['adjuvant forbidden, nothing said', forbidden, {}, []],
  ['adjuvant forbidden and there', forbidden, { adjuvant: 'with' }, ['refusal label.adjuvant-forbidden']],
  [
    'adjuvant of which the label is silent',
    entry(),
    { adjuvant: 'with' },
    ['heads-up label.adjuvant-silent'],
  ],
  ['an allowed partner', partners, { partners: ['good partner'] }, []],
  ['a forbidden partner', partners, { partners: ['Bad Partner'] }, ['refusal label.partner-forbidden']],
  [
    'a partner that is not on the label’s list',
    partners,
    { partners: ['Some Partner'] },
    ['refusal label.partner-not-allowed'],
  ],
  [
    'any partner on a silent label',
    entry(),
    { partners: ['Some Partner'] },
    ['hold label.partner-not-named'],
  ],
  ['a product that kills all green', entry({ nonSelective: true }), {}, ['heads-up label.non-selective']],
]

describe('conditions, ground and tank', () => {
  test.each(rows)('%s', (_what, label, asked, stands) => {
    expect(standing(mayI(label, situation(asked)))).toEqual(stands)
  })

  test.each([
    [heat, ['label.mind-hot', 'label.mind-cold']],
    [wind, ['label.mind-windy', 'label.mind-calm']],
    [rain, ['label.mind-rain']],
    [water, ['label.mind-water']],
    [limited({ watering: { rule: 'water in', hours: 24 } }), ['label.mind-water-in']],
    [limited({ watering: { rule: 'hold off', hours: 12 } }), ['label.mind-no-watering']],
    [limited({ droplets: { classes: ['coarse'] } }), ['label.mind-droplets']],
  ])('what nobody has measured is told and stops nobody', (label, ids) => {
    const verdict = mayI(label, situation())
    expect(verdict.outcome).toBe('answer')
    expect(verdict.reasons.map(({ id }) => id)).toEqual(ids)
  })

  test('a silent label makes no reason', () => {
    expect(mayI(entry(), situation()).reasons).toEqual([])
  })

  test('a limit tells the words of the label', () => {
    const hot = mayI(heat, situation({ conditions: { temperature: F('90') } }))
    expect(reasonOf(hot, 'label.too-hot')).toEqual({
      id: 'label.too-hot',
      outcome: 'refusal',
      line: 'Between 50 and 85 F.',
      page: '4',
      with: { limit: { value: '85', unit: 'F' }, now: { value: '90', unit: 'F' } },
    })
  })

  test('young turf opens on the day that its days are over', () => {
    expect(mayI(seed, situation({ soddedOn: '2025-06-15' })).earliestNext).toBe('2025-07-15')
  })
})
