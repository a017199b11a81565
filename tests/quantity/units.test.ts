import { describe, expect, test } from 'vitest'
import { ALIASES } from '#src/quantity/aliases.ts'
import { convert, convertNumber } from '#src/quantity/quantity.ts'
import type { UnitId } from '#src/quantity/units.ts'
import { dimensionOf, factorOf, unitIds, unitsOf } from '#src/quantity/units.ts'

/** A fraction of whole numbers, so that the table shares no arithmetic with what it checks. */
type Exact = readonly [above: bigint, below: bigint]

const whole = (value: bigint): Exact => [value, 1n]
const times = (a: Exact, b: Exact): Exact => [a[0] * b[0], a[1] * b[1]]

/** NIST Handbook 44, Appendix C; NIST SP 811, Appendix B: 1 in = 25.4 mm, gallon 231 in³, pound 453.59237 g. */
const INCH_CM: Exact = [254n, 100n]
const CUBIC_INCH = times(INCH_CM, times(INCH_CM, INCH_CM))
const GALLON = times(whole(231n), CUBIC_INCH)
const POUND: Exact = [45359237n, 100000n]
const FOOT_M: Exact = [3048n, 10000n]
const SQUARE_FOOT = times(FOOT_M, FOOT_M)
/** Standard gravity 9.80665 m/s², NIST SP 811: a pound-force on a square inch. */
const PSI = times(times(times(POUND, [1n, 1000n]), [980665n, 100000n]), [10000n * 10000n, 254n * 254n])

const EXACT: Readonly<Record<Exclude<UnitId, 'F' | 'C' | '%'>, Exact>> = {
  gal: GALLON,
  qt: times(GALLON, [1n, 4n]),
  pt: times(GALLON, [1n, 8n]),
  cup: times(GALLON, [1n, 16n]),
  'fl oz': times(GALLON, [1n, 128n]),
  tbsp: times(GALLON, [1n, 256n]),
  tsp: times(GALLON, [1n, 768n]),
  L: whole(1000n),
  mL: whole(1n),
  lb: POUND,
  'oz wt': times(POUND, [1n, 16n]),
  kg: whole(1000n),
  g: whole(1n),
  mg: [1n, 1000n],
  ft2: SQUARE_FOOT,
  '1000 ft2': times(SQUARE_FOOT, whole(1000n)),
  acre: times(SQUARE_FOOT, whole(43560n)),
  m2: whole(1n),
  '100 m2': whole(100n),
  ha: whole(10000n),
  ft: FOOT_M,
  in: [254n, 10000n],
  yd: times(FOOT_M, whole(3n)),
  mi: times(FOOT_M, whole(5280n)),
  m: whole(1n),
  cm: [1n, 100n],
  mm: [1n, 1000n],
  km: whole(1000n),
  s: whole(1n),
  min: whole(60n),
  h: whole(3600n),
  day: whole(86400n),
  mph: times(FOOT_M, [5280n, 1000n]),
  'ft/min': times(FOOT_M, [60n, 1000n]),
  'km/h': whole(1n),
  'm/s': [36n, 10n],
  'gal/min': GALLON,
  'qt/min': times(GALLON, [1n, 4n]),
  'pt/min': times(GALLON, [1n, 8n]),
  'fl oz/min': times(GALLON, [1n, 128n]),
  'L/min': whole(1000n),
  'mL/min': whole(1n),
  psi: PSI,
  bar: whole(100000n),
  kPa: whole(1000n),
}

/** 45 decimals of a fraction, by whole numbers only. */
function decimals([above, below]: Exact): string {
  const scaled = (above * 10n ** 46n) / below
  const rounded = (scaled + 5n) / 10n
  const text = rounded.toString().padStart(46, '0')
  return `${text.slice(0, -45)}.${text.slice(-45)}`
}

describe('every unit equals its definition', () => {
  test.each(Object.entries(EXACT))('%s', (id, exact) => {
    expect(factorOf(id as UnitId).toFixed(45)).toBe(decimals(exact))
  })

  test('the table leaves no unit out', () => {
    expect([...Object.keys(EXACT), 'F', 'C', '%'].sort()).toEqual([...unitIds].sort())
  })
})

describe('conversions that people know by heart', () => {
  test.each([
    ['1', 'gal', '128', 'fl oz'],
    ['1', 'fl oz', '2', 'tbsp'],
    ['1', 'tbsp', '3', 'tsp'],
    ['1', 'lb', '16', 'oz wt'],
    ['1', 'acre', '43560', 'ft2'],
    ['1', 'acre', '43.56', '1000 ft2'],
    ['1', '1000 ft2', '92.90304', 'm2'],
    ['1', 'ha', '10000', 'm2'],
    ['1', 'mph', '88', 'ft/min'],
    ['1', 'mph', '1.609344', 'km/h'],
    ['1', 'mph', '0.44704', 'm/s'],
    ['1', 'bar', '100', 'kPa'],
    ['212', 'F', '100', 'C'],
    ['-40', 'C', '-40', 'F'],
    ['86', 'F', '30', 'C'],
  ] as const)('%s %s is %s %s', (value, from, expected, to) => {
    expect(convertNumber(value, from, to).toSignificantDigits(40).toFixed()).toBe(
      convertNumber(expected, to, to).toSignificantDigits(40).toFixed(),
    )
  })

  test('there and back leaves no dust behind', () => {
    expect(convert(convert({ value: '1', unit: 'ft2' }, 'acre'), 'ft2')).toEqual({ value: '1', unit: 'ft2' })
    expect(convert(convert({ value: '7', unit: 'tsp' }, 'gal'), 'tsp')).toEqual({ value: '7', unit: 'tsp' })
  })

  test('what measures something else cannot be converted', () => {
    expect(() => convertNumber('1', 'oz wt', 'fl oz')).toThrow('Cannot turn oz wt into fl oz')
  })
})

test('no alias names two units', () => {
  const all = Object.values(ALIASES).flat()
  expect(all.length).toBe(new Set(all).size)
})

test('units of one dimension come in the order of the table', () => {
  expect(unitsOf('mass')).toEqual(['lb', 'oz wt', 'kg', 'g', 'mg'])
  expect(unitIds.filter((id) => dimensionOf(id) === 'temperature')).toEqual(['F', 'C'])
})
