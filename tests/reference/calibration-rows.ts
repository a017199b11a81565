import { acresPerHour, stripArea } from '#src/calculator/area/cover.ts'
import type { Width } from '#src/calculator/calibrate/boom.ts'
import { outputAtSpeed, solveBoom } from '#src/calculator/calibrate/boom.ts'
import { calibrateByRefill } from '#src/calculator/calibrate/hand.ts'
import { toleranceRange } from '#src/calculator/calibrate/nozzles.ts'
import { calibrateByOunces, ounceCourse } from '#src/calculator/calibrate/ounce.ts'
import { PER_ACRE } from '#src/calculator/calibrate/output.ts'
import { flowAtPressure } from '#src/calculator/calibrate/pressure.ts'
import { measureSpeed } from '#src/calculator/calibrate/speed.ts'
import { volumeForSpots } from '#src/calculator/calibrate/spots.ts'
import { containersFor, granularTarget } from '#src/calculator/calibrate/spreader.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { UnitId } from '#src/quantity/units.ts'
import { resultOf } from '../calculator/sayable.ts'
import { area, output, rate } from '../quantity/read.ts'
import type { Row } from './field-row.ts'
import { exact, nearest, wrong } from './field-row.ts'

const nozzle = (value: number): Width => ({ of: 'nozzle', spacing: quantity(value, 'in') })
const boom = (value: number): Width => ({ of: 'boom', swath: quantity(value, 'in') })
const gpm = (value: string) => quantity(value, 'gal/min')
const mph = (value: string) => quantity(value, 'mph')

const ounces = (caught: number) => () =>
  resultOf(calibrateByOunces([quantity(caught, 'fl oz')], { plot: area('340 ft2') })).output.value
const course = (width: string, unit: 'in' | 'ft', plot?: string) => () => {
  const size = quantity(width, unit)
  return resultOf(plot === undefined ? ounceCourse(size) : ounceCourse(size, area(plot))).value
}
const refill = (gallons: string, feet: string) => () =>
  resultOf(
    calibrateByRefill(
      { used: [quantity(gallons, 'gal')], length: quantity(feet, 'ft'), swath: quantity('10', 'ft') },
      { form: PER_ACRE },
    ),
  ).output.value
const gpa = (flow: string, speed: string, width: Width) => () =>
  resultOf(solveBoom({ width, flow: gpm(flow), speed: mph(speed) })).output.value
const speedFor = (flow: string, width: Width) => () =>
  resultOf(solveBoom({ width, flow: gpm(flow), output: output('30 gal/acre') })).speed.value
const range = (end: 0 | 1) => () => toleranceRange(quantity('44.1', 'fl oz'), 5)[end].value
const strip = (feet: string, length: string, unit: UnitId & ('mi' | 'ft')) => () =>
  stripArea(quantity(length, unit), quantity(feet, 'ft'), 'acre').value

/** Every published example on what a sprayer or spreader puts out. */
export const CALIBRATION_ROWS: readonly Row[] = [
  {
    id: 'SM-01',
    source: 'SL128',
    given: '40 fl oz caught in the time for 340 ft2',
    published: '40',
    unit: 'gal/acre',
    ours: '40.04',
    standing: nearest('1', 'on the exact plot of 340.3125 ft2 it is 40'),
    work: ounces(40),
  },
  {
    id: 'SM-04',
    source: 'ALB',
    given: '480 fl oz a minute, 222 in swath, 5 mph',
    published: '20',
    unit: 'gal/acre',
    ours: '20.07',
    standing: nearest('1'),
    work: gpa('3.75', '5', boom(222)),
  },
  {
    id: 'SM-26',
    source: 'MT14K',
    given: '10 gal a minute, 420 in swath, 30 gal/acre',
    published: '4.7',
    unit: 'mph',
    ours: '4.714',
    standing: nearest('0.1'),
    work: speedFor('10', boom(420)),
  },
  {
    id: 'SM-26 as used',
    source: 'MT14K',
    given: '10 gal a minute, 420 in swath, 30 gal/acre',
    published: '5',
    unit: 'mph',
    ours: '4.714',
    standing: nearest('1'),
    work: speedFor('10', boom(420)),
  },
  {
    id: 'SM-27',
    source: 'MT14',
    given: '1.5 gal a minute and nozzle, 30 in spacing, 30 gal/acre',
    published: '9.9',
    unit: 'mph',
    ours: '9.9',
    standing: exact,
    work: speedFor('1.5', nozzle(30)),
  },
  {
    id: 'SM-33 lower',
    source: 'MT14K',
    given: '5 percent under an average of 44.1 fl oz (the average is inferred)',
    published: '41.9',
    unit: 'fl oz',
    ours: '41.9',
    standing: nearest('0.1'),
    work: range(0),
  },
  {
    id: 'SM-33 upper',
    source: 'MT14K',
    given: '5 percent over an average of 44.1 fl oz (the average is inferred)',
    published: '46.3',
    unit: 'fl oz',
    ours: '46.31',
    standing: nearest('0.1'),
    work: range(1),
  },
  ...(
    [
      ['SM-34', 'B817', '20', 'in', '204', '204.2', '1'],
      ['SM-35', 'B817', '30', 'in', '136', '136.1', '1'],
      ['SM-36', 'B817', '40', 'in', '102', '102.1', '1'],
      ['SM-37', 'USU', '9', 'ft', '37.8', '37.81', '0.1'],
      ['SM-38', 'USU', '12', 'ft', '28.4', '28.36', '0.1'],
    ] as const
  ).map(
    ([id, source, width, unit, published, ours, step]): Row => ({
      id,
      source,
      given: `course of the 1/128 acre, ${width} ${unit} wide`,
      published,
      unit: 'ft',
      ours,
      standing: nearest(step),
      work: course(width, unit),
    }),
  ),
  {
    id: 'SM-55',
    source: 'ACES',
    given: '50 fl oz caught in the time for 340 ft2',
    published: '50',
    unit: 'gal/acre',
    ours: '50.05',
    standing: nearest('1'),
    work: ounces(50),
  },
  {
    id: 'SM-58',
    source: 'CTP',
    given: '0.9 lb of nitrogen per 1,000 ft2 from 25 percent',
    published: '3.6',
    unit: 'lb/1000 ft2',
    ours: '3.6',
    standing: exact,
    work: () => resultOf(granularTarget(rateOfArea('0.9 lb ai/1000 ft2'), '25')).value,
  },
  {
    id: 'SM-59',
    source: 'CTP',
    given: '3.6 lb per 1,000 ft2 on 45 acres in bags of 50 lb',
    published: '142',
    unit: 'bags',
    ours: '142',
    standing: exact,
    work: () => {
      const total = amountIn(area('45 acre'), '1000 ft2').times('3.6')
      return containersFor(quantity(total, 'lb'), quantity(50, 'lb'))
    },
  },
  {
    id: 'SM-60',
    source: 'NCX',
    given: 'course of 340 ft2, 6 ft wide',
    published: '57',
    unit: 'ft',
    ours: '56.67',
    standing: nearest('1', 'on the exact plot it is 56.72'),
    work: course('6', 'ft', '340 ft2'),
  },
  {
    id: 'SM-65',
    source: 'FLEX',
    given: '0.15 gal a minute, 48 in spacing, 5 mph',
    published: '327',
    unit: 'gal/acre',
    ours: '3.713',
    standing: wrong('the source divides by 5 instead of 5 × 88 ft a minute: 88 times too much'),
    work: gpa('0.15', '5', nozzle(48)),
  },
  {
    id: 'SM-66',
    source: 'FLEX',
    given: '12 gal over 660 ft, 10 ft swath',
    published: '79.2',
    unit: 'gal/acre',
    ours: '79.2',
    standing: exact,
    work: refill('12', '660'),
  },
  {
    id: 'SM-71',
    source: 'PESH',
    given: '6 trees at 2 qt each',
    published: '3',
    unit: 'gal',
    ours: '3',
    standing: exact,
    work: () => volumeForSpots(quantity(2, 'qt'), 6, 'gal').value,
  },
  {
    id: 'SM-77',
    source: 'NCT',
    given: '20 gal/acre at 3 mph, now 6 mph',
    published: '10',
    unit: 'gal/acre',
    ours: '10',
    standing: exact,
    work: () => resultOf(outputAtSpeed(output('20 gal/acre'), mph('3'), mph('6'))).value,
  },
  {
    id: 'SM-84',
    source: 'GF',
    given: '4 gal on a strip of 436 ft, 10 ft boom',
    published: '40',
    unit: 'gal/acre',
    ours: '39.96',
    standing: nearest('1'),
    work: refill('4', '436'),
  },
  {
    id: 'SM-85',
    source: 'OKB',
    given: 'four times the pressure',
    published: '2',
    unit: 'times the flow',
    ours: '2',
    standing: exact,
    work: () => resultOf(flowAtPressure(gpm('1'), quantity(20, 'psi'), quantity(80, 'psi'))).value,
  },
  {
    id: 'SM-89',
    source: 'DRM',
    given: '11 ft in 3 s',
    published: '2.5',
    unit: 'mph',
    ours: '2.5',
    standing: exact,
    work: () =>
      resultOf(measureSpeed([{ distance: quantity(11, 'ft'), time: quantity(3, 's') }])).speed.value,
  },
  {
    id: 'SM-90',
    source: 'UNLM',
    given: '8.25 ft wide for a mile',
    published: '1',
    unit: 'acre',
    ours: '1',
    standing: exact,
    work: strip('8.25', '1', 'mi'),
  },
  {
    id: 'SM-90 an hour',
    source: 'UNLM',
    given: '8.25 ft wide at 1 mph',
    published: '1',
    unit: 'acre an hour',
    ours: '1',
    standing: exact,
    work: () => acresPerHour(mph('1'), quantity('8.25', 'ft')).value,
  },
  {
    id: 'SM-91',
    source: 'UNLM',
    given: '33 ft wide for a quarter of a mile',
    published: '1',
    unit: 'acre',
    ours: '1',
    standing: exact,
    work: strip('33', '0.25', 'mi'),
  },
]

function rateOfArea(text: string) {
  const read = rate(text)
  if (read.kind !== 'area') throw new Error(`Not a rate per area: ${text}`)
  return read
}
