import { describe, expect, test } from 'vitest'
import { runRoom as run } from '#tests/helpers/room.ts'

const AT = ['--at', '2026-05-04T09:00:00-04:00']
const runRoom = (lines: readonly string[], args: readonly string[] = []) => run(lines, [...AT, ...args])

const FIXED = [
  '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"',
  '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1.3 gal/1000 ft2" in_tank:"0.5 gal" scale:"0.1 g"',
  '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"2 gal/1000 ft2" in_tank:"1.5 gal" in_tank_output:"1 gal/1000 ft2"',
  '/mix product:"Tarnbrask 75 WDG" tank:"1/2" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"',
  '/mix product:"Tarnbrask 75 WDG" ground:"18500 ft2" sprayer:"Backpack"',
  '/mix rate:"0.5 % v/v" tank:"2 gal"',
  '/rate amount:"3 pt/acre" to:"fl oz/1000 ft2"',
  '/rate amount:"0.75 lb ai/acre" strength:"6.7 lb ai/gal" to:"pt/acre"',
]

describe('the room as lines of JSON', () => {
  test('answers one request a line, in order, and ends with status 0', async () => {
    const { status, lines: replies, errors } = await runRoom(FIXED, ['--as', 'crew'])
    expect([status, errors]).toEqual([0, ''])
    expect(replies.map(({ number }) => number)).toEqual(FIXED.map((_, at) => String(at + 1)))
    expect(replies.map(({ outcome }) => outcome)).toEqual([
      'heads-up',
      'heads-up',
      'hold',
      'answer',
      'heads-up',
      'heads-up',
      'answer',
      'answer',
    ])
    const fact = (at: number, name: string) => replies[at]?.facts[name]
    // Common practice, no source: 0.226 oz for two gallons; 3.6 g on top of half a gallon; add none, fill to 3 gal.
    expect(fact(0, 'concentrate_exact')).toMatchObject({ value: 0.226, unit: 'oz wt' })
    expect(fact(1, 'concentrate')).toMatchObject({ value: 3.6, unit: 'g' })
    expect([fact(2, 'concentrate')?.value, fact(2, 'tank')?.value]).toEqual([0, 3])
    expect(fact(4, 'loads')?.value).toBe(5)
    expect(fact(6, 'converted')).toMatchObject({ unit: 'fl oz/1000 ft2', text: '1.102 fl oz/1000 ft²' })
  })

  test('presses, forms, the clock and files', async () => {
    const { status, lines: replies } = await runRoom([
      '/mix product:"Cawderly Spot" tank:"2 gal" sprayer:"Hand can"',
      '> 2',
      '> 1',
      '/rate amount:"0.75 lb ai/acre" to:"pt/acre"',
      '= strength:"6.7 lb ai/gal"',
      '+ 8 days',
      '/card sprayer:"Hand can" product:"Tarnbrask 75 WDG"',
    ])
    expect(status).toBe(0)
    expect(replies.slice(0, 5).map(({ title }) => title)).toEqual([
      'Which rate? The label gives 0.25 % v/v to 0.5 % v/v.',
      '37.5 mL of Cawderly Spot (1.268 fl oz)',
      'Noted: 2 gal of Cawderly Spot in Hand can',
      'How strong is the product? Give its ai, such as 4 lb ai/gal or 80 % ai.',
      '0.8955 pt/acre',
    ])
    const moved = replies[5]
    expect(moved?.facts.now?.value).toMatch(/^2026-05-12T/)
    expect(replies).toHaveLength(7 + Number(moved?.facts.due?.value))
    expect(replies.at(-1)?.files).toMatchObject([{ name: 'truck-card-1.png', type: 'image/png' }])
  })

  test('a line that cannot be read is a refusal with a message, never a crash', async () => {
    const typed = [
      'hello',
      '> 99',
      '= a:b',
      '/',
      '/mix "',
      '+ soon',
      '/mix rate:"3 pt/acre" rate:"',
      `/mix rate:"${'9'.repeat(9_000)}"`,
      '\u0000\u{1F331}',
    ]
    const { status, lines: replies, errors } = await runRoom(typed)
    expect([status, errors]).toEqual([0, ''])
    expect(replies.map(({ outcome }) => outcome)).toEqual(typed.map(() => 'refusal'))
    expect(replies.every(({ number }) => number !== null)).toBe(true)
  })

  test('speaks as a lead', async () => {
    const { lines } = await runRoom(['/sprayer add name:X tank:"2 gal"', '/sprayer show'], ['--as', 'lead'])
    expect(lines.map(({ title }) => title)).toEqual(['X is kept', '5 sprayers'])
  })
})
