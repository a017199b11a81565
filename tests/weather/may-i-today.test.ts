import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { judgeCrewHeat } from '#src/weather/crew-heat.ts'
import { openInversionQuestions } from '#src/weather/inversion.ts'
import { mayIToday } from '#src/weather/may-i-today.ts'
import type { LabelDay, Readings } from '#src/weather/readings.ts'
import { usualDaySettings } from '#src/weather/readings.ts'
import { strictestOf } from '#src/weather/reason.ts'
import { ceilingSpread } from '#src/weather/wind.ts'
import { spoken } from '../calculator/sayable.ts'
import { degF, fairDay, guidance, mph, silent } from './cases.ts'

function judge(label: Partial<LabelDay>, readings: Readings) {
  const verdict = mayIToday({ ...silent, ...label }, readings, guidance)
  for (const one of verdict.reasons) spoken(one)
  return verdict
}

/** One row a rule: what the label says, what is different from a fair day, and what comes out. */
type Row = readonly [
  what: string,
  label: Partial<LabelDay>,
  day: Readings,
  outcome: string,
  ids: readonly string[],
]

function check(rows: readonly Row[]) {
  test.each(rows)('%s', (_, label, day, outcome, ids) => {
    const verdict = judge(label, fairDay(day))
    expect(verdict.reasons.map((one) => one.id.replace('weather.', ''))).toEqual(ids)
    expect(verdict.outcome).toBe(outcome)
  })
}

const noSigns = {
  'smoke-layer': false,
  'ground-fog': false,
  'dew-or-frost': false,
  'clear-sky': false,
  'sounds-carry': false,
}

describe('a fair day', () => check([['nothing speaks against it', {}, {}, 'answer', []]]))

describe('wind', () => {
  const most = { wind: { most: mph(10), line: 'Do not spray above 10 mph', page: '3' } }
  check([
    ['unknown is asked for', {}, { wind: undefined } as never, 'question', ['wind-unknown']],
    ['below zero is no wind', {}, { wind: mph(-1) }, 'refusal', ['below-zero', 'calm-ask']],
    ['at the label limit', most, { wind: mph(10) }, 'heads-up', ['wind-brisk']],
    ['a hair over the label limit', most, { wind: mph('10.01') }, 'refusal', ['wind-above-label']],
    [
      'the limit in another unit',
      most,
      { wind: { value: '16.2', unit: 'km/h' } },
      'refusal',
      ['wind-above-label'],
    ],
    [
      'gusts over the label limit',
      most,
      { gust: mph(14) },
      'hold',
      ['gust-above-label', 'wind-above-guidance-allowed'],
    ],
    [
      'a label that allows more than is advised',
      { wind: { most: mph(15) } },
      { wind: mph(12) },
      'heads-up',
      ['wind-above-guidance-allowed'],
    ],
    ['a silent label at the usual stop', {}, { wind: mph(10) }, 'heads-up', ['wind-brisk']],
    ['a silent label above the usual stop', {}, { wind: mph('10.1') }, 'hold', ['wind-above-guidance']],
    ['gusts above the usual stop', {}, { gust: mph(12) }, 'hold', ['wind-above-guidance']],
    ['seven is easy', {}, { wind: mph(7) }, 'answer', []],
    [
      'below the least of the label',
      { wind: { least: mph(4) } },
      { wind: mph(3) },
      'refusal',
      ['wind-below-label'],
    ],
    ['towards bees', {}, { towards: ['bees', 'people'] }, 'hold', ['wind-towards']],
  ])

  test('a refusal carries the words of the label', () => {
    const [first] = judge(most, fairDay({ wind: mph(12) })).reasons
    expect(first).toMatchObject({ line: 'Do not spray above 10 mph', page: '3' })
  })

  test('the spread of what is published is told', () => {
    expect(ceilingSpread(guidance)).toEqual({ least: mph(3), most: mph(10), count: 9 })
  })
})

describe('inversion', () => {
  const calm = { wind: mph(2) }
  check([
    ['a calm asks for the signs', {}, calm, 'question', ['calm-ask']],
    ['near sunset asks too', {}, { sun: { untilSunsetMin: 119 } }, 'question', ['hour-ask']],
    ['near sunrise asks too', {}, { sun: { sinceSunriseMin: 59 } }, 'question', ['hour-ask']],
    [
      'in the middle of the day nobody asks',
      {},
      { sun: { sinceSunriseMin: 60, untilSunsetMin: 120 } },
      'answer',
      [],
    ],
    ['a calm without any sign is a heads-up', {}, { ...calm, inversion: noSigns }, 'heads-up', ['calm']],
    [
      'smoke in a layer holds by itself',
      {},
      { inversion: { 'smoke-layer': true } },
      'hold',
      ['inversion-likely'],
    ],
    ['one weak sign alone', {}, { inversion: { 'clear-sky': true } }, 'heads-up', ['inversion-possible']],
    [
      'a calm with two weak signs',
      {},
      { ...calm, inversion: { ...noSigns, 'clear-sky': true, 'dew-or-frost': true } },
      'hold',
      ['inversion-likely'],
    ],
    [
      'a label that forbids it',
      { inversion: { line: 'Do not apply into an inversion' } },
      { inversion: { 'ground-fog': true } },
      'refusal',
      ['inversion-label'],
    ],
  ])

  test('asks only what nobody has answered', () => {
    expect(openInversionQuestions({ 'smoke-layer': false, 'clear-sky': true })).toEqual([
      'ground-fog',
      'dew-or-frost',
      'sounds-carry',
    ])
  })
})

describe('heat and cold', () => {
  const label = { temperature: { most: degF(85), least: degF(50), line: 'Apply between 50 and 85 F' } }
  const growth = { groups: ['4'] }
  check([
    ['at the label limit', label, { temperature: degF(85) }, 'answer', []],
    ['over the label limit', label, { temperature: degF('85.1') }, 'refusal', ['too-hot-label']],
    [
      'the limit in Celsius',
      label,
      { temperature: { value: '30', unit: 'C' } },
      'refusal',
      ['too-hot-label'],
    ],
    ['under the label limit', label, { temperature: degF(49) }, 'refusal', ['too-cold-label']],
    [
      'a label with a limit asks',
      label,
      { temperature: undefined } as never,
      'question',
      ['temperature-unknown'],
    ],
    ['growth regulator, hot forecast', growth, { forecastHigh: degF(86) }, 'hold', ['forecast-hot-advice']],
    ['growth regulator, 85 is not over 85', growth, { forecastHigh: degF(85) }, 'answer', []],
    [
      'another group on the same summer day',
      {},
      { forecastHigh: degF(89), temperature: degF(84) },
      'answer',
      [],
    ],
    [
      'any product for the leaf at 90',
      {},
      { temperature: degF(90), humidityPercent: '70' },
      'hold',
      ['too-hot-advice'],
    ],
    [
      'a product for the soil at 90',
      { through: 'soil' },
      { temperature: degF(90), humidityPercent: '70' },
      'answer',
      [],
    ],
    [
      'a label with its own limit turns advice into a heads-up',
      { temperature: { most: degF(95) }, groups: ['4'] },
      { temperature: degF(91), forecastHigh: degF(96), humidityPercent: '70' },
      'heads-up',
      ['forecast-hot-advice', 'too-hot-advice'],
    ],
    ['cold leaves', {}, { temperature: degF(39) }, 'heads-up', ['too-cold-advice']],
  ])
})

describe('dry and damp air', () => {
  check([
    ['Delta T under 2', {}, { temperature: degF(59), humidityPercent: '90' }, 'heads-up', ['delta-t-low']],
    ['Delta T over 10', {}, { temperature: degF(86), humidityPercent: '30' }, 'heads-up', ['delta-t-high']],
    [
      'Delta T between 8 and 10',
      {},
      { temperature: degF(80), humidityPercent: '40' },
      'heads-up',
      ['delta-t-edge'],
    ],
    ['no humidity, no Delta T', {}, { humidityPercent: undefined } as never, 'answer', []],
    ['101 percent is no humidity', {}, { humidityPercent: '101' }, 'refusal', ['bad-humidity']],
    ['200 F is no air', { through: 'soil' }, { temperature: degF(200) }, 'refusal', ['bad-temperature']],
  ])
})

describe('rain', () => {
  const dry = { rainFree: { hours: 6 } }
  check([
    ['now', {}, { rainInHours: 0 }, 'hold', ['raining']],
    ['inside the dry hours of the label', dry, { rainInHours: 5.5 }, 'hold', ['rain-too-soon-label']],
    ['just outside them', dry, { rainInHours: 6 }, 'answer', []],
    [
      'unknown where the label wants dry hours',
      dry,
      { rainInHours: undefined } as never,
      'question',
      ['rain-unknown'],
    ],
    ['a silent label, sooner than anybody publishes', {}, { rainInHours: 0.5 }, 'hold', ['rain-too-soon']],
    ['a silent label, where sources differ', {}, { rainInHours: 8 }, 'heads-up', ['rain-maybe-too-soon']],
    ['a product that wants water', { watering: { rule: 'water in' } }, { rainInHours: 2 }, 'answer', []],
  ])
})

describe('the grass and the ground', () => {
  const mowing = { mowing: { daysBefore: 2, daysAfter: 1 } }
  check([
    ['short of water', {}, { turf: { drought: true } }, 'hold', ['turf-drought']],
    ['short of water, product for the soil', { through: 'soil' }, { turf: { drought: true } }, 'answer', []],
    ['greening up', {}, { turf: { greeningUp: true } }, 'hold', ['turf-greening-up']],
    ['new', {}, { turf: { isNew: true } }, 'hold', ['turf-new']],
    ['dormant', {}, { turf: { dormant: true } }, 'heads-up', ['turf-dormant']],
    [
      'dormant only, and green',
      { dormant: { rule: 'only' } },
      { turf: { dormant: false } },
      'refusal',
      ['turf-not-dormant'],
    ],
    ['dormant only, unknown', { dormant: { rule: 'only' } }, {}, 'question', ['turf-dormant-unknown']],
    ['dormant only, and dormant', { dormant: { rule: 'only' } }, { turf: { dormant: true } }, 'answer', []],
    [
      'never dormant',
      { dormant: { rule: 'never' } },
      { turf: { dormant: true } },
      'refusal',
      ['turf-dormant-label'],
    ],
    ['soaked', {}, { turf: { soaked: true } }, 'hold', ['ground-soaked']],
    ['frozen', {}, { turf: { frozenOrSnow: true } }, 'hold', ['ground-frozen']],
    ['tree roots, silent label', {}, { turf: { overTreeRoots: true } }, 'question', ['tree-roots']],
    [
      'tree roots forbidden',
      { treeRoots: { rule: 'forbidden' } },
      { turf: { overTreeRoots: true } },
      'refusal',
      ['tree-roots-label'],
    ],
    [
      'tree roots allowed',
      { treeRoots: { rule: 'allowed' } },
      { turf: { overTreeRoots: true } },
      'answer',
      [],
    ],
    ['mown today', {}, { turf: { mownDaysAgo: 0 } }, 'hold', ['mown-too-close']],
    ['mown two days ago, where sources differ', {}, { turf: { mownDaysAgo: 2 } }, 'heads-up', ['mown-close']],
    ['mown a week ago', {}, { turf: { mownDaysAgo: 7 } }, 'answer', []],
    ['mown two days ago, which the label allows', mowing, { turf: { mownDaysAgo: 2 } }, 'answer', []],
    ['mown sooner than the label allows', mowing, { turf: { mownDaysAgo: 1 } }, 'hold', ['mown-label']],
    ['to be mown tomorrow', {}, { turf: { mowInDays: 1 } }, 'hold', ['mow-too-close']],
    ['to be mown tomorrow, which the label allows', mowing, { turf: { mowInDays: 1 } }, 'answer', []],
    ['to be mown today against the label', mowing, { turf: { mowInDays: 0 } }, 'hold', ['mow-label']],
    [
      'watered before the label wants it',
      { watering: { rule: 'hold off', hours: 24 } },
      { turf: { waterInHours: 12 } },
      'hold',
      ['water-too-soon'],
    ],
    [
      'watered in too late',
      { watering: { rule: 'water in', hours: 24 } },
      { turf: { waterInHours: 30 } },
      'hold',
      ['water-too-late'],
    ],
  ])
})

describe('drops', () => {
  const coarse = { droplets: { classes: ['coarse', 'very coarse'] } }
  check([
    ['of another size than the label asks', coarse, { droplets: 'fine' }, 'refusal', ['droplets-label']],
    ['of the size the label asks', coarse, { droplets: 'coarse' }, 'answer', []],
    ['unknown', coarse, {}, 'question', ['droplets-unknown']],
  ])
})

describe('heat for the crew', () => {
  test.each([
    [80, '40', 'work clothes', 'lower', 'lower', []],
    [90, '60', 'work clothes', 'moderate', 'moderate', ['crew-heat-moderate']],
    [90, '60', 'coveralls', 'moderate', 'moderate', ['crew-heat-moderate', 'crew-heat-coveralls']],
    [90, '60', 'chemical-resistant suit', 'moderate', 'high', ['crew-heat-high', 'crew-heat-clothing']],
    [90, '70', 'chemical-resistant suit', 'high', 'extreme', ['crew-heat-extreme', 'crew-heat-clothing']],
    [100, '60', 'work clothes', 'extreme', 'extreme', ['crew-heat-extreme']],
  ] as const)('%s F and %s percent in %s', (t, rh, clothing, band, actOn, ids) => {
    const heat = judgeCrewHeat(degF(t), rh, clothing, guidance)
    expect([heat.band, heat.actOn]).toEqual([band, actOn])
    expect(heat.reasons.map((one) => one.id.replace('weather.', ''))).toEqual(ids)
    expect(heat.reasons.map(spoken)).toHaveLength(ids.length)
  })
})

describe('a verdict', () => {
  const day = fc.record(
    {
      wind: fc.integer({ min: 0, max: 25 }).map(mph),
      temperature: fc.integer({ min: 20, max: 110 }).map(degF),
      humidityPercent: fc.integer({ min: 0, max: 100 }).map(String),
      rainInHours: fc.integer({ min: 0, max: 48 }),
      turf: fc.record({ drought: fc.boolean(), soaked: fc.boolean(), mownDaysAgo: fc.nat(10) }),
    },
    { requiredKeys: [] },
  )
  const strictness = ['answer', 'heads-up', 'question', 'hold', 'refusal']

  test('is the strictest of its reasons, which come strictest first', () => {
    fc.assert(
      fc.property(day, (readings) => {
        const { outcome, reasons } = judge({}, readings as Readings)
        const levels = reasons.map((one) => strictness.indexOf(one.outcome))
        expect(levels).toEqual([...levels].sort((a, b) => b - a))
        expect(outcome).toBe(strictestOf(reasons))
        expect(strictness.indexOf(outcome)).toBe(levels[0] ?? 0)
      }),
    )
  })

  test('never grows milder when the wind grows above the calm', () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 25 }), fc.integer({ min: 3, max: 25 }), (a, b) => {
        const at = (wind: number) => strictness.indexOf(judge({}, fairDay({ wind: mph(wind) })).outcome)
        expect(at(Math.max(a, b))).toBeGreaterThanOrEqual(at(Math.min(a, b)))
      }),
    )
  })

  test('a crew may set its own stop, where labels are silent', () => {
    const strict = { ...usualDaySettings, windEasy: mph(4), windStop: mph(6) }
    const verdict = mayIToday(silent, fairDay({ wind: mph(7) }), guidance, strict)
    expect(verdict.reasons.map((one) => one.id)).toEqual(['weather.wind-above-guidance'])
  })
})
