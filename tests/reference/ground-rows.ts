import { measureShape } from '#src/calculator/area/measure-shape.ts'
import type { Shape } from '#src/calculator/area/shape.ts'
import { scaleToJar } from '#src/calculator/order/jar.ts'
import { rateOnBands } from '#src/calculator/spot/band.ts'
import { dilute, liquidForSpray, powderForSpray } from '#src/calculator/spot/dilute.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { resultOf } from '../calculator/sayable.ts'
import type { Row } from './field-row.ts'
import { exact, nearest, off } from './field-row.ts'

const ft = (value: number | string) => quantity(value, 'ft')
const rectangle = (length: number, width: number): Shape => ({
  shape: 'rectangle',
  length: ft(length),
  width: ft(width),
})
const triangle = (base: number, height: number): Shape => ({
  shape: 'triangle',
  base: ft(base),
  height: ft(height),
})
const circle = (diameter: number): Shape => ({ shape: 'circle', by: 'diameter', measure: ft(diameter) })
const holds =
  (shape: Shape, unit: 'ft2' | 'acre' = 'ft2') =>
  () =>
    resultOf(measureShape(shape, unit)).value

const acre = { value: '1', unit: 'acre' } as const
const hectare = { value: '1', unit: 'ha' } as const
const seventy: Output = { value: '70', unit: 'L', per: hectare }
/** The source divides everything by 100, which makes of 70 L/ha a jar of 0.7 L. */
const jar = (value: string, unit: 'L' | 'mL') => {
  const items = [{ name: 'demo', rate: areaRate(value, unit, hectare) }]
  return resultOf(scaleToJar(items, seventy, quantity('0.7', 'L')))
}
const jarAmount = (value: string, unit: 'L' | 'mL') => () => {
  const amount = jar(value, unit).amounts[0]?.amount
  return amount === undefined ? '0' : amountIn(amount, 'mL')
}

/** Every published example on ground, bands, jars and sprays of a percentage. */
export const GROUND_ROWS: readonly Row[] = [
  ...(
    [
      ['SM-09', 'OSUOKC', '60 × 25 ft', rectangle(60, 25), '1500', '1500', exact],
      [
        'SM-10',
        'OSUOKC',
        'circle, diameter 80 ft',
        circle(80),
        '5024',
        '5027',
        off('0.05', 'π taken as 3.14'),
      ],
      ['SM-11', 'OSUOKC', 'triangle, base 30 ft, height 26 ft', triangle(30, 26), '390', '390', exact],
      ['SM-15', 'ARMY', '300 × 150 ft', rectangle(300, 150), '45000', '45000', exact],
      ['SM-45', 'TPWD', '260 × 408 ft', rectangle(260, 408), '106080', '106100', exact],
      ['SM-46', 'TPWD', 'triangle, base 300 ft, height 500 ft', triangle(300, 500), '75000', '75000', exact],
      ['SM-47', 'TNP', 'circle, diameter 20 ft', circle(20), '314.159', '314.2', nearest('0.001')],
      ['SM-67', 'VAT', '50 × 30 ft', rectangle(50, 30), '1500', '1500', exact],
      ['SM-68', 'VAT', 'triangle, base 40 ft, height 80 ft', triangle(40, 80), '1600', '1600', exact],
      ['SM-69', 'UC', '80 × 60 ft (printed once as 480, a slip)', rectangle(80, 60), '4800', '4800', exact],
      ['SM-70', 'UC', 'circle, diameter 40 ft', circle(40), '1256', '1257', off('0.05', 'π taken as 3.14')],
      [
        'SM-76',
        'MHF',
        'widths 19.4 and 39.6, 25 apart',
        { shape: 'offsets', rule: 'trapezoid', spacing: ft(25), offsets: [ft('19.4'), ft('39.6')] },
        '737.5',
        '737.5',
        exact,
      ],
    ] as const
  ).map(
    ([id, source, given, shape, published, ours, standing]): Row => ({
      id,
      source,
      given,
      published,
      unit: 'ft2',
      ours,
      standing,
      work: holds(shape as Shape),
    }),
  ),
  {
    id: 'SM-45 in acres',
    source: 'TPWD',
    given: '260 × 408 ft',
    published: '2.44',
    unit: 'acre',
    ours: '2.435',
    standing: nearest('0.01'),
    work: holds(rectangle(260, 408), 'acre'),
  },
  {
    id: 'SM-46 in acres',
    source: 'TPWD',
    given: 'triangle, base 300 ft, height 500 ft',
    published: '1.72',
    unit: 'acre',
    ours: '1.722',
    standing: nearest('0.01'),
    work: holds(triangle(300, 500), 'acre'),
  },
  {
    id: 'SM-16',
    source: 'ARMY',
    given: '55 gal of 1 percent from 48 percent',
    published: '1.146',
    unit: 'gal',
    ours: '1.146',
    standing: nearest('0.001', 'the source then uses 1.1 gal, 4 percent less'),
    work: () => resultOf(dilute(quantity(55, 'gal'), '1', '48')).concentrate.value,
  },
  {
    id: 'SM-18',
    source: 'ARMY',
    given: '10 lb of 5 percent from 80 percent',
    published: '0.625',
    unit: 'lb',
    ours: '0.625',
    standing: exact,
    work: () => resultOf(dilute(quantity(10, 'lb'), '5', '80')).concentrate.value,
  },
  {
    id: 'SM-18 carrier',
    source: 'ARMY',
    given: '10 lb of 5 percent from 80 percent: 9 lb 6 oz of carrier',
    published: '9.375',
    unit: 'lb',
    ours: '9.375',
    standing: exact,
    work: () => resultOf(dilute(quantity(10, 'lb'), '5', '80')).carrier.value,
  },
  {
    id: 'SM-19',
    source: 'ARMY',
    given: '5 gal of 2 percent from an 80 percent powder',
    published: '1.04',
    unit: 'lb',
    ours: '1.043',
    standing: nearest('0.01', 'water at 8.34 lb a gallon'),
    work: () => resultOf(powderForSpray(quantity(5, 'gal'), '2', '80')).value,
  },
  {
    id: 'SM-24',
    source: 'UMN',
    given: '3 lb/acre on 10 in bands of 30 in rows',
    published: '1',
    unit: 'lb/acre of field',
    ours: '1',
    standing: exact,
    work: () => {
      const bands = rateOnBands(areaRate('3', 'lb', acre), quantity(10, 'in'), quantity(30, 'in'))
      return resultOf(bands).perField.value
    },
  },
  ...(
    [
      ['SM-56', '1', '4'],
      ['SM-57', '0.25', '1'],
    ] as const
  ).map(
    ([id, percent, strength]): Row => ({
      id,
      source: 'G7510',
      given: `100 gal of ${percent} percent from ${strength} lb ai a gallon`,
      published: '2',
      unit: 'gal',
      ours: '2.085',
      standing: nearest('1', 'the table counts about 8 lb of water a gallon'),
      work: () => resultOf(liquidForSpray(quantity(100, 'gal'), percent, strength)).value,
    }),
  ),
  {
    id: 'SM-72',
    source: 'GRDCJ',
    given: '70 L/ha over 100',
    published: '0.7',
    unit: 'L',
    ours: '0.7',
    standing: exact,
    work: () => jar('2', 'L').volume.value,
  },
  {
    id: 'SM-73',
    source: 'GRDCJ',
    given: '60 percent of 0.7 L to begin with',
    published: '0.42',
    unit: 'L',
    ours: '0.42',
    standing: exact,
    work: () => jar('2', 'L').start.value,
  },
  {
    id: 'SM-74',
    source: 'GRDCJ',
    given: '2 L/ha in a jar of 0.7 L at 70 L/ha',
    published: '20',
    unit: 'mL',
    ours: '20',
    standing: exact,
    work: jarAmount('2', 'L'),
  },
  {
    id: 'SM-75',
    source: 'GRDCJ',
    given: '800 mL/ha in a jar of 0.7 L at 70 L/ha',
    published: '8',
    unit: 'mL',
    ours: '8',
    standing: exact,
    work: jarAmount('800', 'mL'),
  },
]
