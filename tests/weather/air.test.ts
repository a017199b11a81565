import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dewPointCelsius, pressureAtKPa, vaporDeficitKPa } from '#src/weather/air.ts'
import { heatIndexF } from '#src/weather/heat-index.ts'
import { dryingOf } from '#src/weather/humidity.ts'
import {
  closedFormValidity,
  deltaTCelsius,
  vaporFromBulbsKPa,
  wetBulbCelsius,
  wetBulbClosedForm,
} from '#src/weather/wet-bulb.ts'

const celsius = fc.double({ min: -20, max: 50, noNaN: true })
const humidity = fc.double({ min: 0, max: 100, noNaN: true })
const pressure = fc.double({ min: 60, max: 108, noNaN: true })

describe('wet bulb and Delta T', () => {
  test('Delta T is never below zero and the wet bulb never above the air', () => {
    fc.assert(
      fc.property(celsius, humidity, pressure, (t, rh, pressureKPa) => {
        const air = { celsius: t, humidityPercent: rh, pressureKPa }
        expect(deltaTCelsius(air)).toBeGreaterThanOrEqual(0)
        expect(wetBulbCelsius(air)).toBeLessThanOrEqual(t)
      }),
    )
  })

  test('at 100 percent Delta T is zero and the wet bulb is the air', () => {
    fc.assert(
      fc.property(celsius, pressure, (t, pressureKPa) => {
        const air = { celsius: t, humidityPercent: 100, pressureKPa }
        expect(deltaTCelsius(air)).toBe(0)
        expect(wetBulbCelsius(air)).toBe(t)
      }),
    )
  })

  test('just under 100 percent there is no jump', () => {
    fc.assert(
      fc.property(celsius, (t) => {
        expect(deltaTCelsius({ celsius: t, humidityPercent: 99.999 })).toBeLessThan(0.001)
      }),
    )
  })

  test('drier air has a larger Delta T', () => {
    fc.assert(
      fc.property(celsius, humidity, humidity, (t, a, b) => {
        const [dry, damp] = [Math.min(a, b), Math.max(a, b)]
        const delta = (rh: number) => deltaTCelsius({ celsius: t, humidityPercent: rh })
        expect(delta(dry)).toBeGreaterThanOrEqual(delta(damp) - 1e-9)
      }),
    )
  })

  test('the wet bulb lies between dew point and air, so the dew point overstates Delta T', () => {
    fc.assert(
      fc.property(celsius, fc.double({ min: 1, max: 99, noNaN: true }), (t, rh) => {
        const air = { celsius: t, humidityPercent: rh }
        expect(wetBulbCelsius(air)).toBeGreaterThan(dewPointCelsius(air))
        expect(wetBulbCelsius(air)).toBeLessThan(t)
      }),
    )
  })

  test('both bulbs read back give the vapor pressure of the air', () => {
    fc.assert(
      fc.property(celsius, fc.double({ min: 5, max: 99, noNaN: true }), (t, rh) => {
        const air = { celsius: t, humidityPercent: rh }
        const vapor = vaporFromBulbsKPa(t, wetBulbCelsius(air))
        expect(vapor + vaporDeficitKPa(air)).toBeCloseTo(
          vaporDeficitKPa({ celsius: t, humidityPercent: 0 }),
          9,
        )
      }),
    )
  })

  test('the closed form stays within its published error of ours from 5 to 38 C and from 20 percent on', () => {
    const [low, high] = closedFormValidity.errorC
    for (let t = 5; t <= 38; t++) {
      for (let rh = 20; rh <= 99; rh++) {
        const air = { celsius: t, humidityPercent: rh }
        const off = (wetBulbClosedForm(air) ?? Number.NaN) - wetBulbCelsius(air)
        expect(off).toBeGreaterThan(low)
        expect(off).toBeLessThan(high)
      }
    }
  })

  /** Buck's vapor pressure (1981) and the coefficient of the WMO guide, both from memory: other fits, same physics. */
  test('another vapor equation and another coefficient give the same wet bulb to a tenth of a degree', () => {
    const vapor = (t: number) => 0.61121 * Math.exp((18.678 - t / 234.5) * (t / (257.14 + t)))
    for (let t = 1; t <= 50; t++) {
      for (let rh = 5; rh <= 100; rh++) {
        const wet = wetBulbCelsius({ celsius: t, humidityPercent: rh })
        const balance = vapor(wet) - 0.000653 * (1 + 0.000944 * wet) * 101.325 * (t - wet)
        const slope = (vapor(wet + 0.01) - vapor(wet)) / 0.01 + 0.000653 * 101.325
        expect(Math.abs((balance - (vapor(t) * rh) / 100) / slope)).toBeLessThan(0.1)
      }
    }
  })

  test.each([
    [20, 4.9],
    [20, 99.1],
    [-20.1, 50],
    [50.1, 50],
  ])('the closed form says nothing at %s C and %s percent', (t, rh) => {
    expect(wetBulbClosedForm({ celsius: t, humidityPercent: rh })).toBeNull()
  })

  test('the closed form can lie above the air where ours cannot', () => {
    const air = { celsius: -20, humidityPercent: 5 }
    expect(wetBulbClosedForm(air)).toBeGreaterThan(air.celsius)
    expect(wetBulbCelsius(air)).toBeLessThan(air.celsius)
  })

  test('thin air dries faster', () => {
    const air = { celsius: 25, humidityPercent: 40 }
    expect(deltaTCelsius({ ...air, pressureKPa: pressureAtKPa(1800) })).toBeGreaterThan(deltaTCelsius(air))
  })

  test('figures are told to what they are good for', () => {
    expect(dryingOf({ celsius: 30, humidityPercent: 30 })).toEqual({
      wetBulb: { value: '18.1', unit: 'C' },
      deltaT: { value: '11.9', unit: 'C' },
      vaporDeficit: { value: '2.97', unit: 'kPa' },
    })
  })
})

describe('heat index', () => {
  test('of mild air is the mean of the simple formula and the air', () => {
    expect(heatIndexF(70, 50)).toBeCloseTo((0.5 * (70 + 61 + 2.4 + 4.7) + 70) / 2, 9)
  })

  test('is lowered in very dry air and raised in very damp air', () => {
    const base = (t: number, r: number) =>
      -42.379 +
      2.04901523 * t +
      10.14333127 * r -
      0.22475541 * t * r -
      0.00683783 * t * t -
      0.05481717 * r * r +
      0.00122874 * t * t * r +
      0.00085282 * t * r * r -
      0.00000199 * t * t * r * r
    expect(heatIndexF(100, 5) - base(100, 5)).toBeCloseTo(-2 * Math.sqrt(12 / 17), 9)
    expect(heatIndexF(84, 95) - base(84, 95)).toBeCloseTo(0.6, 9)
    expect(heatIndexF(100, 13) - base(100, 13)).toBe(0)
    expect(heatIndexF(84, 85) - base(84, 85)).toBe(0)
  })

  test('grows with the humidity wherever it is hot', () => {
    fc.assert(
      fc.property(fc.integer({ min: 85, max: 110 }), fc.integer({ min: 40, max: 84 }), (t, r) => {
        expect(heatIndexF(t, r + 1)).toBeGreaterThan(heatIndexF(t, r))
      }),
    )
  })
})
