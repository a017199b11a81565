import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { DegreeDayMethod } from '#src/weather/degree-days/method.ts'
import { cappedCorn } from '#src/weather/degree-days/method.ts'
import { degreeDaysOf } from '#src/weather/degree-days/one-day.ts'
import { dayNumber, dayText } from '#src/weather/degree-days/plain-day.ts'
import { readDailyTemperatures } from '#src/weather/degree-days/read-days.ts'
import { sumDegreeDays } from '#src/weather/degree-days/sum.ts'
import { spoken } from '../calculator/sayable.ts'

const average: DegreeDayMethod = { name: 'average', base: '50', unit: 'F' }
const sine: DegreeDayMethod = { name: 'sine', base: '50', unit: 'F' }
const degrees = fc.integer({ min: 10, max: 110 })
const dayF = (max: number, min: number) => ({ max: String(max), min: String(min), unit: 'F' as const })

describe('one day', () => {
  test('the same day counts otherwise by each method', () => {
    const cool = dayF(60, 40)
    expect(degreeDaysOf(cool, average).toString()).toBe('0')
    expect(degreeDaysOf(cool, cappedCorn).toString()).toBe('5')
    expect(degreeDaysOf(cool, sine).toNumber()).toBeCloseTo(10 / Math.PI, 8)
  })

  test('a day wholly above the base is the same by average and by sine', () => {
    fc.assert(
      fc.property(degrees, degrees, (a, b) => {
        const day = dayF(Math.max(a, b), Math.min(a, b))
        const whole = Number(day.min) >= 50
        const [mean, wave] = [degreeDaysOf(day, average).toNumber(), degreeDaysOf(day, sine).toNumber()]
        if (whole) expect(wave).toBeCloseTo(mean, 8)
        else expect(wave).toBeGreaterThanOrEqual(mean - 1e-8)
      }),
    )
  })

  test('the sine is the area of the wave above the base', () => {
    fc.assert(
      fc.property(degrees, degrees, (a, b) => {
        const [max, min] = [Math.max(a, b), Math.min(a, b)]
        const slices = 20_000
        let area = 0
        for (let slice = 0; slice < slices; slice++) {
          const at = (max + min) / 2 + ((max - min) / 2) * Math.sin((2 * Math.PI * (slice + 0.5)) / slices)
          area += Math.max(0, at - 50) / slices
        }
        expect(degreeDaysOf(dayF(max, min), sine).toNumber()).toBeCloseTo(area, 4)
      }),
      { numRuns: 40 },
    )
  })

  test('heat above a cap does not count', () => {
    const capped: DegreeDayMethod = { ...sine, cap: '86' }
    expect(degreeDaysOf(dayF(100, 90), capped).toNumber()).toBeCloseTo(36, 8)
    expect(degreeDaysOf(dayF(80, 60), capped).toNumber()).toBeCloseTo(20, 8)
  })

  test('is never below zero, whatever the method', () => {
    fc.assert(
      fc.property(degrees, degrees, fc.constantFrom(average, cappedCorn, sine), (a, b, method) => {
        expect(degreeDaysOf(dayF(Math.max(a, b), Math.min(a, b)), method).gte(0)).toBe(true)
      }),
    )
  })

  test('a day in Celsius is counted in the unit of the method', () => {
    expect(
      degreeDaysOf({ max: '17', min: '9', unit: 'C' }, { name: 'average', base: '0', unit: 'C' }).toString(),
    ).toBe('13')
    expect(
      degreeDaysOf({ max: '17', min: '9', unit: 'C' }, { name: 'average', base: '10', unit: 'C' }).toString(),
    ).toBe('3')
    expect(degreeDaysOf({ max: '20', min: '10', unit: 'C' }, average).toString()).toBe('9')
  })
})

describe('reading daily temperatures', () => {
  const read = (text: string, options = {}) =>
    readDailyTemperatures(text, { unit: 'F', firstDay: '2026-04-01', ...options })
  const plain = (text: string, options = {}) => {
    const result = read(text, options)
    if (!result.ok) throw new Error(JSON.stringify(result.problems))
    return result.days.map((one) => `${one.day} ${one.max} ${one.min} ${one.unit}`)
  }

  test.each<[string, string[], object?]>([
    ['2026-04-01 74 52', ['2026-04-01 74 52 F']],
    ['2026-04-01,74,52\n2026-04-02,58,40', ['2026-04-01 74 52 F', '2026-04-02 58 40 F']],
    ['Date\tHigh\tLow\n2026-04-02\t74\t52', ['2026-04-02 74 52 F']],
    ['4/3, 74, 52', ['2026-04-03 74 52 F']],
    ['4/3: 74/52', ['2026-04-03 74 52 F']],
    ['4/3/2025 74 52', ['2025-04-03 74 52 F']],
    ['74/52; 58/40', ['2026-04-01 74 52 F', '2026-04-02 58 40 F']],
    ['74 / 52\n58-40', ['2026-04-01 74 52 F', '2026-04-02 58 40 F']],
    ['52 74', ['2026-04-01 74 52 F']],
    ['high 74 low 52', ['2026-04-01 74 52 F']],
    ['74°F / 52°F', ['2026-04-01 74 52 F']],
    ['23.4 C 9 C', ['2026-04-01 23.4 9 C']],
    ['30 -5', ['2026-04-01 30 -5 F']],
    ['-3 -11', ['2026-04-01 -3 -11 F']],
    ['23,5 9,25', ['2026-04-01 23.5 9.25 C'], { unit: 'C', locale: 'es' }],
    ['2026-04-05 60 40\n2026-04-03 70 50', ['2026-04-03 70 50 F', '2026-04-05 60 40 F']],
    ['2026-02-28 50 30\n51 31', ['2026-02-28 50 30 F', '2026-03-01 51 31 F']],
  ])('%j', (text, days, options = {}) => {
    expect(plain(text, options)).toEqual(days)
  })

  test.each<[string, string, object?]>([
    ['', 'days-none'],
    ['nothing here', 'days-none'],
    ['74', 'day-unreadable'],
    ['74 52 40', 'day-unreadable'],
    ['warm 74 52', 'day-unreadable'],
    ['74 F 12 C', 'day-unreadable'],
    ['2026-02-30 74 52', 'day-impossible'],
    ['13/1 74 52', 'day-impossible'],
    ['2026-04-01 740 52', 'day-absurd'],
    ['2026-04-01 74 52\n2026-04-01 75 53', 'day-twice'],
    ['74 52', 'day-undated', { firstDay: undefined }],
    ['4/1 74 52', 'day-undated', { firstDay: undefined }],
    ['70 50\n'.repeat(3661), 'days-too-many'],
  ])('%j is not read: %s', (text, id, options = {}) => {
    const result = read(text, options)
    expect(result.ok ? [] : result.problems.map((one) => one.id)).toEqual([`weather.${id}`])
    if (!result.ok) expect(result.problems.map(spoken)).toHaveLength(1)
  })

  test('every bad line is named, and none of the text is kept', () => {
    const result = read('74 52\nx 1\n60 40\n2026-02-30 1 2')
    expect(result.ok ? [] : result.problems.map((one) => one.with.number)).toEqual([2, 4])
  })

  test('any text ends in days or in problems', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        const result = read(text)
        expect(result.ok ? result.days.length : result.problems.length).toBeGreaterThan(0)
      }),
    )
  })

  test('what was printed is read back', () => {
    const some = fc.array(fc.tuple(degrees, degrees), { minLength: 1, maxLength: 30 })
    fc.assert(
      fc.property(some, (pairs) => {
        const lines = pairs.map(([a, b], n) => `${dayText(20_000 + n)} ${Math.max(a, b)} ${Math.min(a, b)}`)
        expect(plain(lines.join('\n'))).toEqual(lines.map((line) => `${line} F`))
      }),
    )
  })
})

describe('a total', () => {
  const days = ['2026-04-01 74 52', '2026-04-02 58 40', '2026-04-04 70 50'].join('\n')
  const result = readDailyTemperatures(days, { unit: 'F' })
  if (!result.ok) throw new Error('days not read')
  const { days: three } = result

  test('comes with its method, base, first day and the days that lack', () => {
    const sum = sumDegreeDays(three, average, '2026-04-01')
    expect(sum).toMatchObject({
      ok: true,
      value: {
        total: '23',
        method: average,
        firstDay: '2026-04-01',
        lastDay: '2026-04-04',
        missing: ['2026-04-03'],
      },
    })
    if (sum.ok) expect(sum.value.reasons.map(spoken)).toHaveLength(1)
    expect(sum.ok && sum.value.running.map((one) => one.total)).toEqual(['13', '13', '23'])
  })

  test('begins at its first day', () => {
    const sum = sumDegreeDays(three, average, '2026-04-02')
    expect(sum.ok && sum.value.total).toBe('10')
  })

  test('of no days is a question, and a cap below the base a refusal', () => {
    const none = sumDegreeDays(three, average, '2026-05-01')
    expect(none.ok ? [] : none.problems.map((one) => one.id)).toEqual(['weather.days-none-since'])
    const upside = sumDegreeDays(three, { ...cappedCorn, cap: '40' } as DegreeDayMethod, '2026-04-01')
    expect(upside.ok ? [] : upside.problems.map(spoken)).toHaveLength(1)
  })

  test('a season split in two adds up', () => {
    const rows = fc.array(fc.tuple(degrees, degrees), { minLength: 2, maxLength: 40 })
    fc.assert(
      fc.property(rows, fc.nat(), fc.constantFrom(average, cappedCorn, sine), (pairs, n, method) => {
        const season = pairs.map(([a, b], index) => ({
          ...dayF(Math.max(a, b), Math.min(a, b)),
          day: dayText(20_000 + index),
        }))
        const at = 1 + (n % (season.length - 1))
        const total = (some: typeof season) => {
          const sum = sumDegreeDays(some, method, some[0]?.day ?? '')
          return sum.ok ? Number(sum.value.total) : Number.NaN
        }
        expect(total(season.slice(0, at)) + total(season.slice(at))).toBeCloseTo(total(season), 6)
      }),
    )
  })
})

test('plain days are counted over month ends and leap years', () => {
  expect(dayText((dayNumber('2028-02-28') ?? 0) + 1)).toBe('2028-02-29')
  expect(dayText((dayNumber('2026-12-31') ?? 0) + 1)).toBe('2027-01-01')
  expect(dayNumber('2026-02-29')).toBeNull()
  expect(dayNumber('2026-4-1')).toBeNull()
})
