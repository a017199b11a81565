import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readLine, readValues, waitMs } from '#src/messengers/room/line.ts'

const DAY_MS = 86_400_000

describe('a line', () => {
  test.each([
    ['', { kind: 'nothing' }],
    ['   \t', { kind: 'nothing' }],
    ['/mix', { kind: 'run', words: 'mix', rest: '' }],
    ['/site add', { kind: 'run', words: 'site add', rest: '' }],
    ['  / mix tank:2', { kind: 'run', words: 'mix', rest: 'tank:2' }],
    ['/mix tank:"2 gal" rate:1', { kind: 'run', words: 'mix', rest: 'tank:"2 gal" rate:1' }],
    ['> 3', { kind: 'press', choice: 3 }],
    ['>12', { kind: 'press', choice: 12 }],
    ['> es', { kind: 'language', language: 'es' }],
    ['= name:"a"', { kind: 'submit', rest: 'name:"a"' }],
    ['=', { kind: 'submit', rest: '' }],
  ])('%j is understood', (text, line) => {
    expect(readLine(text)).toEqual(line)
  })

  test.each([
    ['+ 8 days', 8 * DAY_MS],
    ['+1 day', DAY_MS],
    ['+ 2 weeks', 14 * DAY_MS],
    ['+ 90 min', 5_400_000],
    ['+ 3h', 10_800_000],
    ['+ 1 HOUR', 3_600_000],
  ])('%j moves the clock', (text, ms) => {
    const line = readLine(text)
    expect(line.kind === 'wait' && waitMs(line)).toBe(ms)
  })

  test.each([
    'mix',
    'hello there',
    '> ',
    '> 0',
    '> one',
    '> 1.5',
    '> -1',
    '> 100',
    '+',
    '+ days',
    '+ -3 days',
    '+ 8 lightyears',
    '+ 999999 weeks',
    '/',
    '/ :',
    `/mix ${'x'.repeat(30_000)}`,
  ])('%j is malformed', (text) => {
    expect(readLine(text)).toEqual({ kind: 'malformed' })
  })

  test('whatever is typed, it is one of these, quickly', () => {
    const began = performance.now()
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (text) => {
        expect(['run', 'press', 'submit', 'wait', 'nothing', 'malformed']).toContain(readLine(text).kind)
      }),
      { numRuns: 300 },
    )
    for (const text of [' ', 'a ', 'a: ', '"', '\\', ': '])
      for (const start of ['/mix ', '= ', '> ', '+ ']) {
        const line = readLine(start + text.repeat(4000))
        readValues(line.kind === 'run' || line.kind === 'submit' ? line.rest : text.repeat(4000), KNOWN)
      }
    expect(performance.now() - began).toBeLessThan(5_000)
  })
})

const KNOWN = new Set(['tank', 'rate', 'note', 'in_tank'])

describe('values', () => {
  test.each([
    ['tank:"2 gal" rate:"1 oz"', { tank: '2 gal', rate: '1 oz' }],
    ['tank: "2 gal"rate:"1 oz"', { tank: '2 gal', rate: '1 oz' }],
    ['tank:2 gal rate:3 pt/acre', { tank: '2 gal', rate: '3 pt/acre' }],
    ['TANK:2 Rate :3', { tank: '2', rate: '3' }],
    ['tank:“2 gal” rate:„1 oz“ note:«x»', { tank: '2 gal', rate: '1 oz', note: 'x' }],
    ['note:"he said \\"no\\" and left"', { note: 'he said "no" and left' }],
    ['note:"a back\\\\slash" tank:1', { note: 'a back\\slash', tank: '1' }],
    ['note:at 9:30 by gate: closed tank:1', { note: 'at 9:30 by gate: closed', tank: '1' }],
    ['note:""', { note: '' }],
    ['in_tank:0.5 gal', { in_tank: '0.5 gal' }],
    ['unknown:1 tank:2', { unknown: '1', tank: '2' }],
    ['tank:1 tank:2', { tank: '2' }],
    ['', {}],
  ])('%j are read', (text, values) => {
    expect(readValues(text, KNOWN)).toEqual({ ok: true, values })
  })

  test.each(['2 gal', 'tank', ':', '"tank":1', 'tank:"2 gal', 'tank:"1" 2 gal', '5:1'])(
    '%j are not',
    (text) => {
      expect(readValues(text, KNOWN)).toEqual({ ok: false })
    },
  )

  test('what is put in quotes comes out as it was', () => {
    const quoted = (text: string) => `"${text.replaceAll('\\', '\\\\').replaceAll('"', '\\"')}"`
    fc.assert(
      fc.property(fc.string(), fc.string(), (tank, note) => {
        const read = readValues(`tank:${quoted(tank)} note:${quoted(note)}`, KNOWN)
        expect(read).toEqual({ ok: true, values: { tank, note } })
      }),
    )
  })
})
