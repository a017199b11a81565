import { describe, expect, test } from 'vitest'
import { onScreen, openRoom, type Said } from './open-room.ts'

const factOf = (answer: Said, name: string) =>
  answer.shown.answered.reply.facts.find((one) => one.name === name)?.value

const PLACE = 'site:"Plimmet Street House" area:"Front lawn"'
const BOTH = `/mix product:"Pellimoor 80 WP" also:"Tarnbrask 75 WDG" ${PLACE}`
const REASON = '= reason:"Both makers say by mail that it is fine"'

/** A room in which a licensed lead has lifted today's hold on these two for the front lawn. */
async function liftedRoom() {
  const room = await openRoom()
  await room.as('odalys')(`${BOTH} tank:"2 gal" sprayer:"Hand can" for:"Teo Almendrique"`, '> 1', REASON)
  return room
}

describe('two products in one tank', () => {
  test('a label that is silent on its partner is a hold, which a licensed lead lifts with a reason', async () => {
    const room = await openRoom()
    expect(
      await onScreen(
        room.as('odalys'),
        `${BOTH} tank:"2 gal" sprayer:"Hand can" for:"Teo Almendrique"`,
        '> 1',
        REASON,
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Pellimoor 80 WP" also:"Tarnbrask 75 WDG" site:"Plimmet Street House" area:"Front lawn" tank:"2 gal" sprayer:"Hand can" for:"Teo Almendrique"
          hold: Tarnbrask 75 WDG: The label does not name Pellimoor 80 WP as a partner in the tank. A licensed lead decides.
          > 1 Lift this hold (licensed lead)
      > 1
          question: Why does this hold not apply here today?
          = reason
      = reason:"Both makers say by mail that it is fine"
          heads-up: 18.1 g of Pellimoor 80 WP and 3.2 g of Tarnbrask 75 WDG
          1. Water to 1/2 of the tank, 3/4 at most
          2. Pellimoor 80 WP: 18.1 g. Stir it into a little water first, then pour it in
          3. Tarnbrask 75 WDG: 3.2 g. Stir it into a little water first, then pour it in. Keep the agitation on
          4. nonionic surfactant: 18.5 mL
          5. Water to the 2 gal mark
          Measure with: pocket scale (0.1 g steps)
          Covers 1,000 ft² at 2 gal/1000 ft².
          New together? Try them in a jar first: /jar.
          Hold lifted by Odalys Trennquist: Both makers say by mail that it is fine
          Pellimoor 80 WP: The label says nothing of an adjuvant. Ask before one goes in.
          > 1 Poured into Hand can
      "
    `)
    expect(room.errors).toEqual([])
  })

  test('each amount is worked out by itself: 2 lb in 100 gal, 0.113 oz on 1,000 ft²', async () => {
    const room = await liftedRoom()
    const answer = await room.as('bex')(`${BOTH} tank:"2 gal" output:"2 gal/1000 ft2"`)
    // By hand: 2 lb × 2 ÷ 100; 1,000 ft² are covered.
    expect(factOf(answer, 'concentrate_exact')).toBeCloseTo(0.04, 9)
    expect(factOf(answer, 'concentrate_exact_2')).toBeCloseTo(0.113, 9)
    expect([factOf(answer, 'product'), factOf(answer, 'product_2')]).toEqual([
      'Pellimoor 80 WP',
      'Tarnbrask 75 WDG',
    ])
  })

  test('what was poured is remembered with every product', async () => {
    const room = await liftedRoom()
    const bex = room.as('bex')
    const poured = await bex(`${BOTH} tank:"2 gal" sprayer:"Hand can" output:"2 gal/1000 ft2"`, '> 1')
    expect(poured.title).toBe('Noted: 2 gal of Pellimoor 80 WP and Tarnbrask 75 WDG in Hand can')
    const one = await bex('/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can"')
    expect([one.outcome, one.title]).toEqual([
      'question',
      'Bex Yolvarren poured Pellimoor 80 WP and Tarnbrask 75 WDG into Hand can, Mon, May 4, 2026, 9:00 AM',
    ])
    expect((await bex('= in_tank:"1 gal"')).title).toBe(
      'No: Hand can holds Pellimoor 80 WP and Tarnbrask 75 WDG, not this product',
    )
  })

  test('the same mix goes on top of what is left of it', async () => {
    const room = await liftedRoom()
    const bex = room.as('bex')
    const line = `${BOTH} tank:"2 gal" sprayer:"Hand can" output:"2 gal/1000 ft2"`
    await bex(line, '> 1')
    const asked = await bex(line)
    expect(asked.fields).toEqual(['in_tank'])
    const topped = await bex('= in_tank:"1 gal"')
    expect(factOf(topped, 'concentrate_exact_2')).toBeCloseTo(0.0565, 9)
  })

  test('a whole job is split into loads of both', async () => {
    const room = await liftedRoom()
    const answer = await room.as('bex')(`${BOTH} sprayer:Backpack output:"2 gal/1000 ft2"`)
    expect([factOf(answer, 'loads'), factOf(answer, 'total_mix')]).toEqual([3, 8.5])
    expect(factOf(answer, 'total_concentrate_2')).toBeGreaterThan(0)
    expect(answer.lines[0]).toMatch(
      /^2 loads: .* of Pellimoor 80 WP and .* of Tarnbrask 75 WDG each, fill to 4 gal$/,
    )
  })
})

describe('labels that do not allow each other', () => {
  test('both are named, and nobody lifts that', async () => {
    const answer = await (await openRoom()).as('odalys')(
      '/mix product:"Stilbrack 41 SL" also:"Wraxmoor 20 ME" tank:"2 gal" sprayer:"Hand can"',
    )
    expect(answer.screen).toEqual([
      'refusal: No: the label of Stilbrack 41 SL forbids Wraxmoor 20 ME in the tank: Do not mix with Wraxmoor 20 ME.',
      'No: the label of Wraxmoor 20 ME forbids Stilbrack 41 SL in the tank: –',
    ])
    expect(answer.choices).toEqual([])
  })

  test('a label that allows one partner and nothing else refuses every other', async () => {
    const answer = await (await openRoom()).as('odalys')(
      `/mix product:"Pellimoor 80 WP" also:"Bellstrake 3 L" tank:"2 gal" sprayer:"Hand can" ${PLACE}`,
    )
    expect(answer.outcome).toBe('refusal')
    expect(answer.title).toContain('with nothing else')
  })
})

describe('questions about one product of several', () => {
  test('the answer is written where that product stands', async () => {
    const bex = (await openRoom()).as('odalys')
    const line = `/mix product:"Tarnbrask 75 WDG" also:"Bellstrake 3 L" tank:"2 gal" sprayer:"Hand can" ${PLACE}`
    expect(await onScreen(bex, line, '> 1', REASON, '> 1', '> 1')).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" also:"Bellstrake 3 L" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn"
          hold: Tarnbrask 75 WDG: The label does not name Bellstrake 3 L as a partner in the tank. A licensed lead decides.
          Bellstrake 3 L: The label does not name Tarnbrask 75 WDG as a partner in the tank. A licensed lead decides.
          > 1 Lift this hold (licensed lead)
      > 1
          question: Why does this hold not apply here today?
          = reason
      = reason:"Both makers say by mail that it is fine"
          question: Bellstrake 3 L has several rates. Which one fits?
          > 1 Cool-season lawns, spring, first treatment: 3 to 4 pt per acre (1.1 to 1.5 fl oz per 1,000 sq ft).
          > 2 Cool-season lawns, repeat treatment: 2 to 3 pt per acre (0.73 to 1.1 fl oz per 1,000 sq ft).
      > 1
          question: Which rate? The label gives 3 pt/acre to 4 pt/acre.
          Cool-season lawns, spring, first treatment: 3 to 4 pt per acre (1.1 to 1.5 fl oz per 1,000 sq ft).
          > 1 Lowest: 3 pt/acre
          > 2 Highest: 4 pt/acre
      > 1
          question: Bellstrake 3 L: This line is for a first treatment, and this ground had one on Mon, Feb 23, 2026. Is there a line for a repeat?
          Label, page 5: “Cool-season lawns, spring, first treatment: 3 to 4 pt per acre (1.1 to 1.5 fl oz per 1,000 sq ft).”
      "
    `)
  })

  test('a name that is not in the book offers the nearest', async () => {
    const bex = (await openRoom()).as('bex')
    const asked = await bex('/mix product:"Tarnbrask 75 WDG" also:"Fennowik" tank:"2 gal" sprayer:"Hand can"')
    expect([asked.outcome, asked.choices]).toEqual(['question', ['Fennowick 4 EC']])
    expect((await bex('> 1')).title).toContain('Fennowick 4 EC')
  })
})

describe('what no tank takes', () => {
  test.each([
    ['also:"Tarnbrask 75 WDG" tank:"2 gal"', 'Cannot work that out yet'],
    [
      'product:"Tarnbrask 75 WDG" also:"Tarnbrask 75 WDG" tank:"2 gal"',
      'Tarnbrask 75 WDG is named twice. One tank holds it once.',
    ],
    [
      'product:"Tarnbrask 75 WDG" also:"Harmottle 0.5 G" tank:"2 gal"',
      'No: Harmottle 0.5 G is a granule. It is spread, not mixed',
    ],
    ['product:"Tarnbrask 75 WDG" also:"a; b; c; d; e" tank:"2 gal"', 'Cannot work that out yet'],
    [
      'product:"Tarnbrask 75 WDG" also:"Fennowick 4 EC" tank:"2 gal" in_tank:"1 gal" in_tank_rate:"1 pt/acre"',
      'What is left in the tank must be this very mix. Spray or empty it first, then mix fresh.',
    ],
  ])('%s', async (typed, title) => {
    const room = await openRoom()
    const answer = await room.as('bex')(`/mix ${typed}`)
    expect([answer.outcome, answer.title]).toEqual(['refusal', title])
    expect(room.errors).toEqual([])
  })
})
