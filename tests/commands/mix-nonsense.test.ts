import { describe, expect, test } from 'vitest'
import { openRoom, type Room } from './open-room.ts'

const given = { rate: '3 pt/acre', tank: '2 gal', output: '1 gal/1000 ft2' }
type Given = Partial<
  Record<'rate' | 'tank' | 'output' | 'sprayer' | 'season' | 'scale' | 'in_tank' | 'wrong', string>
>
const line = (parts: Given) =>
  `/mix ${Object.entries({ ...given, ...parts })
    .map(([name, value]) => `${name}:"${value}"`)
    .join(' ')}`

/** Everything of the crew that a mix could have changed. */
const kept = (room: Room) =>
  room.store(async (store) => ({
    sprayers: await Promise.all(
      (await store.sprayers.list()).map(({ id }) => store.sprayers.listEvents(id, 9)),
    ),
    book: await store.labels.list(),
    sites: await store.sites.allAreas(),
    people: (await store.people.list()).map(({ key, name }) => ({ key, name })),
  }))

const rows: readonly (readonly [what: string, parts: Given, sentence: string])[] = [
  [
    'a British gallon',
    { tank: '2 imperial gal' },
    'tank: “2 imperial gal” is British measure: that gallon is about 20 % larger. Give it in US gallons or in liters.',
  ],
  [
    'M for thousand',
    { rate: '3 lb/M' },
    'rate: M can mean thousand or meter. If you mean thousand square feet, write “3 lb/1000 ft2”.',
  ],
  ['an unknown unit', { rate: '3 blorps/acre' }, 'rate: “blorps” is not a unit known here.'],
  ['a negative rate', { rate: '-3 pt/acre' }, 'rate: “-3 pt/acre” is below zero. Give an amount above zero.'],
  ['a negative volume', { tank: '-2 gal' }, 'tank: “-2 gal” is below zero. Give an amount above zero.'],
  ['a rate of zero', { rate: '0 pt/acre' }, 'rate: “0 pt/acre” is zero. Give an amount above zero.'],
  [
    'an output of zero',
    { output: '0 gal/1000 ft2' },
    'output: “0 gal/1000 ft2” is zero. Give an amount above zero.',
  ],
  [
    'a tank as large as a house',
    { tank: '10,000 gal' },
    'tank: “10,000 gal” is more than 5,000 gal, the most that makes sense here. Check the number and the unit.',
  ],
  ['NaN', { rate: 'NaN' }, 'rate: No number at the start of “NaN”. Give a rate, such as 3 pt/acre.'],
  [
    'infinity',
    { tank: 'Infinity gal' },
    'tank: No number at the start of “Infinity gal”. Give a volume, such as 2 gal.',
  ],
  ['nothing', { rate: '' }, '“rate” is needed.'],
  ['an empty volume', { tank: '' }, '“tank” is needed.'],
  ['501 letters', { rate: 'a'.repeat(501) }, '“rate” is too long: at most 500 characters.'],
  [
    '500 letters',
    { rate: 'a'.repeat(500) },
    'rate: Too long: at most 80 characters. Give one number and its unit.',
  ],
  ['an emoji', { tank: '🌱' }, 'tank: No number at the start of “🌱”. Give a volume, such as 2 gal.'],
  [
    'a number without unit',
    { rate: '3' },
    'rate: “3” does not say per what. Write it like 3 pt/acre, 1 gal/1000 ft2 or 2 lb/100 gal.',
  ],
  ['two numbers', { tank: '2-3 gal' }, 'tank: “2-3 gal” is two numbers. Give one number.'],
  [
    'a share of no tank',
    { tank: '3/4' },
    'tank: “3/4” of which tank? Name the sprayer, or give a volume such as 2 gal.',
  ],
  [
    'an area for a volume',
    { tank: '2 acres' },
    'tank: “2 acres” measures something else. Give a volume, such as 2 gal.',
  ],
  ['a season that is none', { season: 'monsoon' }, '“season” must be spring, summer, fall, or winter.'],
]

describe('what cannot be meant gets a clear sentence and changes nothing', async () => {
  test.each(rows)('%s', async (_what, parts, sentence) => {
    const room = await openRoom()
    const before = await kept(room)
    const reply = await room.as('bex')(line(parts))
    expect(reply.outcome).toBe('refusal')
    expect(reply.lines).toEqual([sentence])
    expect(reply.facts).toEqual({})
    expect(reply.number).toBe('1')
    expect(reply.safety).not.toEqual([])
    expect(await kept(room)).toEqual(before)
    expect(room.errors).toEqual([])
  })

  test('an option that there is not names those that there are', async () => {
    const bex = (await openRoom()).as('bex')
    const { outcome, lines } = await bex(line({ wrong: 'x' }))
    expect(outcome).toBe('refusal')
    expect(lines[0]).toMatch(
      /^There is no option “wrong”\. This command knows: product, also, rate, tank, sprayer, ground, /,
    )
  })

  test('several slips are told at once', async () => {
    const bex = (await openRoom()).as('bex')
    expect((await bex(line({ tank: '0 gal', output: '-1 gal/1000 ft2' }))).lines).toEqual([
      'tank: “0 gal” is zero. Give an amount above zero.',
      'output: “-1 gal/1000 ft2” is below zero. Give an amount above zero.',
    ])
  })
})
