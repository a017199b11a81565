import { expect, test } from 'vitest'
import { onScreen, openRoom } from './open-room.ts'

test('several rate lines are shown and never guessed; then the rate of the line is asked', async () => {
  const bex = (await openRoom()).as('bex')
  expect(
    await onScreen(
      bex,
      '/mix product:"Bellstrake 3 L" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn"',
      '> 2',
      '> 1',
    ),
  ).toMatchInlineSnapshot(`
    "
    /mix product:"Bellstrake 3 L" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn"
        question: Bellstrake 3 L has several rates. Which one fits?
        > 1 Cool-season lawns, spring, first treatment: 3 to 4 pt per acre (1.1 to 1.5 fl oz per 1,000 sq ft).
        > 2 Cool-season lawns, repeat treatment: 2 to 3 pt per acre (0.73 to 1.1 fl oz per 1,000 sq ft).
    > 2
        question: Which rate? The label gives 2 pt/acre to 3 pt/acre.
        Cool-season lawns, repeat treatment: 2 to 3 pt per acre (0.73 to 1.1 fl oz per 1,000 sq ft).
        > 1 Lowest: 2 pt/acre
        > 2 Highest: 3 pt/acre
    > 1
        answer: 43.5 mL of Bellstrake 3 L (1.471 fl oz)
        Measure with: small cylinder (0.5 mL steps)
        Half the water, then the product, then fill to the 2 gal mark.
        Covers 2,000 ft² at 1 gal/1000 ft².
        Gives 2.002 pt/acre.
        Label: “Cool-season lawns, repeat treatment: 2 to 3 pt per acre (0.73 to 1.1 fl oz per 1,000 sq ft).”
        > 1 Poured into Hand can
    "
  `)
})

test('weed, season and treatment narrow the lines', async () => {
  const bex = (await openRoom()).as('bex')
  expect(
    await onScreen(
      bex,
      '/mix product:"Bellstrake 3 L" tank:"2 gal" sprayer:"Hand can" weed:dandelion season:fall treatment:first',
    ),
  ).toMatchInlineSnapshot(`
    "
    /mix product:"Bellstrake 3 L" tank:"2 gal" sprayer:"Hand can" weed:dandelion season:fall treatment:first
        question: Bellstrake 3 L has several rates. Which one fits?
        > 1 Cool-season lawns, fall: 3 to 3.5 pt per acre (1.1 to 1.3 fl oz per 1,000 sq ft).
        > 2 Bermuda- and zoysiagrass, actively growing: 2 to 2.5 pt per acre (0.73 to 0.92 fl oz per 1,000 sq ft).
    "
  `)
})

test('an ounce of nothing in particular is a question, an ounce of a known product is not', async () => {
  const bex = (await openRoom()).as('bex')
  expect(
    await onScreen(bex, '/mix rate:"0.113 oz/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"', '> 2'),
  ).toMatchInlineSnapshot(`
    "
    /mix rate:"0.113 oz/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"
        question: 0.113 oz by weight or by volume? Write oz wt for a dry product, fl oz for a liquid.
        > 1 By weight (dry product)
        > 2 Fluid ounces (liquid)
    > 2
        heads-up: 6.5 mL of the product (0.2198 fl oz)
        Measure with: small cylinder (0.5 mL steps)
        Half the water, then the product, then fill to the 2 gal mark.
        Covers 2,000 ft² at 1 gal/1000 ft².
        Gives 0.1099 fl oz/1000 ft².
        No label entry was checked: this is your own reading of the label.
    "
  `)
  const dry = await bex(
    '/mix product:"Tarnbrask 75 WDG" rate:"0.113 oz/1000 ft2" tank:"2 gal" sprayer:"Hand can"',
  )
  expect(dry.facts.concentrate_tool).toBe('6.4 g')
})

test('which area, then how full', async () => {
  const bex = (await openRoom()).as('bex')
  expect(
    await onScreen(bex, '/mix product:"Tarnbrask 75 WDG" site:"Ospelwick School"', '> 2', '= tank:"2 gal"'),
  ).toMatchInlineSnapshot(`
    "
    /mix product:"Tarnbrask 75 WDG" site:"Ospelwick School"
        question: Which area of Ospelwick School?
        > 1 Soccer field
        > 2 Entrance lawn
    > 2
        question: How much mix?
        = tank
    = tank:"2 gal"
        question: How much do you put out? It decides how strong to mix.
        = output
    "
  `)
  expect(
    await onScreen(bex, '/mix product:"Tarnbrask 75 WDG" sprayer:"Hand can"', '> 2'),
  ).toMatchInlineSnapshot(`
    "
    /mix product:"Tarnbrask 75 WDG" sprayer:"Hand can"
        question: How full? Hand can holds 2 gal.
        > 1 Full
        > 2 Half
        > 3 Quarter
    > 2
        heads-up: 3.2 g of Tarnbrask 75 WDG (0.1129 oz wt)
        Measure with: pocket scale (0.1 g steps)
        9 mL of nonionic surfactant goes in as well.
        Half the water, then the product, stir until it is gone, then fill to the 1 gal mark.
        Covers 1,000 ft² at 1 gal/1000 ft².
        Gives 0.1129 oz wt/1000 ft².
        Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
        No site given: turf, interval and this year’s total were not checked.
        0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
        > 1 Poured into Hand can
    "
  `)
})

test('an area without its site is a question', async () => {
  const bex = (await openRoom()).as('bex')
  expect(
    await onScreen(bex, '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" area:"Front lawn"'),
  ).toMatchInlineSnapshot(`
    "
    /mix product:"Tarnbrask 75 WDG" tank:"2 gal" area:"Front lawn"
        question: Name the site as well: areas belong to a site.
    "
  `)
})

test('turf that must be asleep is asked about', async () => {
  const bex = (await openRoom('2026-01-12T09:00:00-05:00')).as('bex')
  expect(
    await onScreen(
      bex,
      '/mix product:"Stilbrack 41 SL" tank:"2 gal" sprayer:"Hand can" rate:"12 fl oz/acre" temperature:55',
      '> 1',
      '/mix product:"Stilbrack 41 SL" tank:"2 gal" sprayer:"Hand can" rate:"12 fl oz/acre" dormant:no',
      '/mix product:"Stilbrack 41 SL" tank:"2 gal" sprayer:"Hand can" rate:"12 fl oz/acre" dormant:yes temperature:"40 F"',
    ),
  ).toMatchInlineSnapshot(`
    "
    /mix product:"Stilbrack 41 SL" tank:"2 gal" sprayer:"Hand can" rate:"12 fl oz/acre" temperature:55
        question: Only for fully dormant turf. Is all of it brown and asleep?
        Label, page 4: “Fully dormant bermudagrass only: 12 to 16 fl oz per acre.”
        > 1 Yes, brown and asleep
        > 2 No, some green
    > 1
        heads-up: 16.5 mL of Stilbrack 41 SL (0.5579 fl oz)
        Measure with: small cylinder (0.5 mL steps)
        Half the water, then the product, then fill to the 2 gal mark.
        Covers 2,000 ft² at 1 gal/1000 ft².
        Gives 12.15 fl oz/acre.
        Label: “Fully dormant bermudagrass only: 12 to 16 fl oz per acre.”
        Kills every green plant it reaches, good grass too.
        No site given: turf, interval and this year’s total were not checked.
        > 1 Poured into Hand can
    /mix product:"Stilbrack 41 SL" tank:"2 gal" sprayer:"Hand can" rate:"12 fl oz/acre" dormant:no
        refusal: No: only for fully dormant turf, and this is green.
        Label, page 4: “Fully dormant bermudagrass only: 12 to 16 fl oz per acre.”
    /mix product:"Stilbrack 41 SL" tank:"2 gal" sprayer:"Hand can" rate:"12 fl oz/acre" dormant:yes temperature:"40 F"
        refusal: No: at least 50 °F. It is 40 °F.
        Label, page 4: “Spray at 50 F or above.”
    "
  `)
})

test('each end of a range gives its own amount', async () => {
  const bex = (await openRoom()).as('bex')
  const asked = await bex('/mix product:"Cawderly Spot" tank:"2 gal" sprayer:"Hand can"')
  expect(asked.choices).toEqual(['Lowest: 0.25 % v/v', 'Highest: 0.5 % v/v'])
  const first = await bex('> 1')
  const again = await bex('/mix product:"Cawderly Spot" tank:"2 gal" sprayer:"Hand can"', '> 2')
  expect(first.facts.concentrate_exact).toBe('0.64 fl oz')
  expect(again.facts.concentrate_exact).toBe('1.28 fl oz')
})
