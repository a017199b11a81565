import { describe, expect, test } from 'vitest'
import { onScreen, openRoom, type Said } from './open-room.ts'

const factOf = (answer: Said, name: string) =>
  answer.shown.answered.reply.facts.find((one) => one.name === name)?.value

const LINE = '/jar product:"Pellimoor 80 WP" also:"Tarnbrask 75 WDG" output:"2 gal/1000 ft2"'

test('every product is in the ratio of the tank, in the order of the tank', async () => {
  const room = await openRoom()
  expect(await onScreen(room.as('bex'), LINE)).toMatchInlineSnapshot(`
    "
    /jar product:"Pellimoor 80 WP" also:"Tarnbrask 75 WDG" output:"2 gal/1000 ft2"
        heads-up: 2.268 g of Pellimoor 80 WP, 0.4004 g of Tarnbrask 75 WDG, and 2.366 mL of nonionic surfactant in a jar of 1 qt
        1. 0.6 qt of the water that you spray with
        2. Pellimoor 80 WP: 2.268 g. Stir it into a little water first, then pour it in
        3. Tarnbrask 75 WDG: 0.4004 g. Stir it into a little water first, then pour it in. Stir
        4. nonionic surfactant: 2.366 mL
        5. Water to 1 qt, close it, turn it over ten times
        Wait 15 minutes.
        Look for layers, clumps, foam, sludge, or warmth. Warmth you feel from outside: the jar stays closed.
        0.4004 g of Tarnbrask 75 WDG is hard to measure in steps of 0.1 g. A larger jar measures better.
        2.366 mL of nonionic surfactant is hard to measure in steps of 0.5 mL. A larger jar measures better.
        Same water, same products as the tank. Gloves and goggles on, outdoors.
        > 1 Nothing to see
        > 2 Layers
        > 3 Clumps
        > 4 Foam
        > 5 Sludge
        > 6 It got warm
    "
  `)
  expect(room.errors).toEqual([])
})

test('2 lb in 100 gal is 2.268 g in a quart; 0.113 oz in 2 gal is 0.4004 g', async () => {
  const answer = await (await openRoom()).as('bex')(LINE)
  // By hand: 2 × 453.59237 ÷ 400, and 0.113 × 28.349523125 ÷ 8.
  expect(factOf(answer, 'jar_amount')).toBeCloseTo(2.26796185, 6)
  expect(factOf(answer, 'jar_amount_2')).toBeCloseTo(0.40043701, 6)
  // 0.25 percent by volume of 946.352946 mL.
  expect(factOf(answer, 'jar_amount_3')).toBeCloseTo(2.36588236, 6)
})

test('a jar half as large takes half of everything', async () => {
  const type = (await openRoom()).as('bex')
  const whole = await type(LINE)
  const half = await type(`${LINE} jar:"1 pt"`)
  for (const name of ['jar_amount', 'jar_amount_2', 'jar_amount_3'])
    expect(Number(factOf(half, name)) * 2, name).toBeCloseTo(Number(factOf(whole, name)), 6)
  // GRDC: 60 percent of the jar is water before the first product.
  expect([factOf(whole, 'jar_water'), factOf(half, 'jar_water')]).toEqual([0.6, 0.6])
})

test('what the crew’s scale hardly tells apart is said; a larger jar does better', async () => {
  const type = (await openRoom()).as('bex')
  expect((await type(LINE)).lines.join('\n')).toContain('0.4004 g of Tarnbrask 75 WDG is hard to measure')
  expect((await type(`${LINE} jar:"1 gal"`)).outcome).toBe('answer')
})

describe('what showed after the wait', () => {
  test('any sign is a hold', async () => {
    const type = (await openRoom()).as('bex')
    await type(LINE)
    const seen = await type('> 3')
    expect([seen.outcome, seen.title]).toEqual(['hold', 'Hold: clumps in the jar. These do not go together'])
  })

  test('nothing seen is no proof', async () => {
    const type = (await openRoom()).as('bex')
    await type(LINE)
    const seen = await type('> 1')
    expect(seen.outcome).toBe('heads-up')
    expect(seen.title).toContain('no proof')
  })
})

test('products and output that are missing are asked', async () => {
  const type = (await openRoom()).as('bex')
  expect((await type('/jar')).fields).toEqual(['product', 'also'])
  const asked = await type('= product:"Pellimoor 80 WP" also:"Tarnbrask 75 WDG"')
  expect(asked.fields).toEqual(['output'])
  expect(factOf(await type('= output:"2 gal/1000 ft2"'), 'jar')).toBe(1)
})

test('products whose labels do not allow each other get no jar', async () => {
  const type = (await openRoom()).as('bex')
  const answer = await type('/jar product:"Stilbrack 41 SL" also:"Wraxmoor 20 ME" output:"1 gal/1000 ft2"')
  expect(answer.outcome).toBe('refusal')
})

test.each(['jar:"0 qt"', 'jar:"big"', 'jar:"900 gal"', 'output:"wet"'])(
  'nonsense is a clear sentence: %s',
  async (typed) => {
    const room = await openRoom()
    const line = typed.startsWith('output') ? LINE.replace(/ output:.*$/, '') : LINE
    const answer = await room.as('bex')(`${line} ${typed}`)
    expect(answer.outcome).toBe('refusal')
    expect(room.errors).toEqual([])
  },
)
