import { abbottFromDead } from '#src/efficacy/control.ts'
import { areaUnderRatings } from '#src/efficacy/curve.ts'
import { pressureAtKPa, saturationKPa, vaporDeficitKPa } from '#src/weather/air.ts'
import type { DegreeDayMethod } from '#src/weather/degree-days/method.ts'
import { cappedCorn } from '#src/weather/degree-days/method.ts'
import { degreeDaysOf, uncutAverage } from '#src/weather/degree-days/one-day.ts'
import { heatIndexF } from '#src/weather/heat-index.ts'
import { vaporFromBulbsKPa, wetBulbClosedForm } from '#src/weather/wet-bulb.ts'
import type { Row } from './field-row.ts'
import { exact, nearest, wrong } from './field-row.ts'
import type { SourceId } from './field-sources.ts'

const average = (base: string, unit: 'F' | 'C' = 'F'): DegreeDayMethod => ({ name: 'average', base, unit })
const day = (max: string, min: string, unit: 'F' | 'C' = 'F') => ({ max, min, unit })

type DegreeDayCase = readonly [
  id: string,
  source: SourceId,
  max: string,
  min: string,
  method: DegreeDayMethod,
  published: string,
]
const degreeDays: readonly DegreeDayCase[] = [
  ['SM-48', 'PUGDD', '74', '52', average('50'), '13'],
  ['SM-49 as recorded', 'PUGDD', '58', '40', average('50'), '0'],
  ['SM-50', 'AGF101', '80', '60', cappedCorn, '20'],
  ['SM-51', 'AGF101', '60', '40', cappedCorn, '5'],
  ['SM-51 by average', 'AGF101', '60', '40', average('50'), '0'],
  ['SM-52', 'AGF101', '90', '70', cappedCorn, '28'],
  ['SM-52 by average', 'AGF101', '90', '70', average('50'), '30'],
  ['SM-86', 'ISU541', '70', '50', average('50'), '10'],
  ['SM-87 of a mean of 75', 'MRCC', '75', '75', average('65'), '10'],
  ['degree days 67/46', 'NEWA', '67', '46', average('50'), '6.5'],
]

/** Temperature in °C, humidity in percent, wet bulb by the closed form in °C, vapor pressure deficit in kPa. */
const air = [
  [20, 50, '13.7', '1.169'],
  [25, 50, '18', '1.584'],
  [30, 30, '18.37', '2.97'],
  [15, 90, '13.84', '0.171'],
] as const

const heat = [
  ['SM-95', 'WSU', 90, 60, '100', '99.68', '1'],
  ['heat index 90 F, 60 percent', 'NWS', 90, 60, '99.7', '99.68', '0.1'],
  ['heat index 90 F, 70 percent', 'NWS', 90, 70, '105.9', '105.9', '0.1'],
  ['heat index 88 F, 40 percent', 'NWS', 88, 40, '87.9', '87.9', '0.1'],
] as const

const ratings = [
  { day: 14, percent: 40 },
  { day: 21, percent: 80 },
  { day: 28, percent: 90 },
]
function underRatings(): string {
  const result = areaUnderRatings(ratings)
  if (!result.ok) throw new Error(result.error.kind)
  return result.value.area
}
function control(check: number, treated: number): string {
  const result = abbottFromDead(check, treated)
  if (!result.ok) throw new Error(result.error.kind)
  return result.value
}

/** Every published example on degree days, air, heat and efficacy. */
export const DAY_ROWS: readonly Row[] = [
  ...degreeDays.map(
    ([id, source, max, min, method, published]): Row => ({
      id,
      source,
      given: `${max}/${min} F, ${method.name}, base ${method.base}`,
      published,
      unit: 'degree days',
      ours: published,
      standing: exact,
      work: () => degreeDaysOf(day(max, min), method),
    }),
  ),
  {
    id: 'SM-49',
    source: 'PUGDD',
    given: '58/40 F, base 50, before it is cut at zero',
    published: '-1',
    unit: 'degree days',
    ours: '-1',
    standing: exact,
    work: () => uncutAverage(day('58', '40'), '50'),
  },
  ...air.flatMap(([t, rh, wet, deficit]): Row[] => [
    {
      id: `wet bulb ${t} C, ${rh} percent`,
      source: 'JAMC',
      given: `${t} C and ${rh} percent by the closed form`,
      published: wet,
      unit: 'C',
      ours: { 20: '13.7', 25: '18', 30: '18.37', 15: '13.84' }[t],
      standing: nearest('0.01'),
      work: () => (wetBulbClosedForm({ celsius: t, humidityPercent: rh }) ?? 0).toFixed(12),
    },
    {
      id: `deficit ${t} C, ${rh} percent`,
      source: 'HAND',
      given: `${t} C and ${rh} percent`,
      published: deficit,
      unit: 'kPa',
      ours: { 20: '1.169', 25: '1.584', 30: '2.97', 15: '0.1705' }[t],
      standing: nearest('0.001'),
      work: () => vaporDeficitKPa({ celsius: t, humidityPercent: rh }).toFixed(12),
    },
  ]),
  {
    id: 'SM-79',
    source: 'NCLF',
    given: 'saturated at 15 C',
    published: '1.705',
    unit: 'kPa',
    ours: '1.705',
    standing: nearest('0.001', 'the page calls dew point and wet bulb the same, which they are not'),
    work: () => saturationKPa(15).toFixed(12),
  },
  {
    id: 'pressure at 1,800 m',
    source: 'NCLP',
    given: '1,800 m above the sea',
    published: '81.76',
    unit: 'kPa',
    ours: '81.76',
    standing: nearest('0.01'),
    work: () => pressureAtKPa(1800).toFixed(12),
  },
  {
    id: 'psychrometer',
    source: 'FAO',
    given: 'dry 25.6 C, wet 19.5 C, ventilated, 1,200 m',
    published: '1.91',
    unit: 'kPa',
    ours: '1.912',
    standing: nearest('0.01'),
    work: () => vaporFromBulbsKPa(25.6, 19.5, pressureAtKPa(1200)).toFixed(12),
  },
  ...heat.map(
    ([id, source, t, r, published, ours, step]): Row => ({
      id,
      source,
      given: `${t} F and ${r} percent`,
      published,
      unit: 'F',
      ours,
      standing: nearest(step),
      work: () => heatIndexF(t, r).toFixed(12),
    }),
  ),
  {
    id: 'SM-78',
    source: 'STATS',
    given: '40, 80 and 90 percent on days 14, 21 and 28',
    published: '1015',
    unit: 'percent days',
    ours: '1015',
    standing: exact,
    work: underRatings,
  },
  {
    id: 'SM-78 in words',
    source: 'STATS',
    given: '40, 80 and 90 percent on days 14, 21 and 28',
    published: '1045',
    unit: 'percent days',
    ours: '1015',
    standing: wrong('the text says 1045, its own worked figure 1015'),
    work: underRatings,
  },
  {
    id: 'SM-94',
    source: 'ABB',
    given: 'check 50 percent dead, treated 98 percent dead',
    published: '48',
    unit: 'percent control',
    ours: '96',
    standing: wrong('plain subtraction, given by the source as the misleading figure; the formula gives 96'),
    work: () => control(50, 98),
  },
]
