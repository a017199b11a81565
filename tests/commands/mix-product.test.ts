import { describe, expect, test } from 'vitest'
import { onScreen, openRoom } from './open-room.ts'

describe('a product of the label book', () => {
  test('half of a named sprayer’s tank on a known lawn', async () => {
    const bex = (await openRoom()).as('bex')
    const line =
      '/mix product:"Tarnbrask 75 WDG" tank:"1/2" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"'
    expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"1/2" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"
          answer: 3.2 g of Tarnbrask 75 WDG (0.1129 oz wt)
          Measure with: pocket scale (0.1 g steps)
          9 mL of nonionic surfactant goes in as well.
          Half the water, then the product, stir until it is gone, then fill to the 1 gal mark.
          Covers 1,000 ft² at 1 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
          > 1 Poured into Hand can
      "
    `)
    const { facts, safety } = await bex(line)
    expect(facts).toMatchObject({
      tank: '1 gal',
      product: 'Tarnbrask 75 WDG',
      label_version: 'DEMO-01-A (2024-11-04), entry 1',
      rate_line: 'sedges',
    })
    expect(safety.join('\n')).toContain('To mix, wear:')
  })

  test('the day’s first mix of a product brings the whole list of what to wear', async () => {
    const bex = (await openRoom()).as('bex')
    const line = '/mix product:"Tarnbrask 75 WDG" tank:"1/2" sprayer:"Hand can"'
    const [first, second] = [await bex(line), await bex(line)]
    expect(first.safety.slice(1)).toMatchInlineSnapshot(`
      [
        "Tarnbrask 75 WDG: CAUTION (PRECAUCIÓN)",
        "To mix, wear: Long-sleeved shirt and long pants, Shoes and socks, and Chemical-resistant gloves.",
        "To spray, wear: Long-sleeved shirt and long pants and Shoes and socks.",
        "Keep people and pets off until the spray has dried.",
      ]
    `)
    expect(second.safety.slice(1)).toMatchInlineSnapshot(`
      [
        "Tarnbrask 75 WDG: CAUTION (PRECAUCIÓN)",
        "To mix, wear: Long-sleeved shirt and long pants, Shoes and socks, and Chemical-resistant gloves.",
      ]
    `)
  })

  test('ground in several loads with a smaller last one', async () => {
    const bex = (await openRoom()).as('bex')
    const line = '/mix product:"Tarnbrask 75 WDG" ground:"18500 ft2" sprayer:"Backpack"'
    expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" ground:"18500 ft2" sprayer:"Backpack"
          heads-up: 59.2 g of Tarnbrask 75 WDG in all (2.088 oz wt), 5 loads
          4 loads: 12.8 g and 37.5 mL of nonionic surfactant each, fill to 4 gal
          1 load: 8 g and 23.5 mL of nonionic surfactant, fill to 2.5 gal
          Measure with: pocket scale (0.1 g steps)
          Each load: half the water, then the product, stir until it is gone, then fill to its mark.
          Covers 18,500 ft² at 1 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          No site given: turf, interval and this year’s total were not checked.
          0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
          > 1 Poured into Backpack
      "
    `)
    // 18.5 gal at one gallon per 1,000 ft² are four tanks of 4 gal and one of 2.5 gal; 18.5 × 0.113 oz.
    expect((await bex(line)).facts).toMatchObject({
      loads: 5,
      total_mix: '18.5 gal',
      last_load: '2.5 gal',
      total_concentrate_exact: '2.0905 oz wt',
      area_covered: '18500 ft2',
    })
  })

  test('an area of a site is the ground when nothing else says how much', async () => {
    const marl = (await openRoom()).as('marl')
    expect(
      await onScreen(
        marl,
        '/mix product:"Tarnbrask 75 WDG" sprayer:"Gun tank" site:"Harbor Cottages" area:"Shore lawn"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" sprayer:"Gun tank" site:"Harbor Cottages" area:"Shore lawn"
          heads-up: 16 g of Tarnbrask 75 WDG in all (0.5644 oz wt), one load
          1 load: 16 g and 94.5 mL of nonionic surfactant, fill to 10 gal
          Measure with: pocket scale (0.1 g steps)
          Half the water, then the product, stir until it is gone, then fill to the 10 gal mark.
          Covers 3,100 ft² at 2 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          3.8 gal will be left over. 6.2 gal is enough.
          0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
          0.0565 oz wt/gal at your output, 0.113 oz wt/gal at the usual one. Mix by yours.
          > 1 Poured into Gun tank
      "
    `)
  })

  test('a percentage is also held against the label per area, and asks for its oil', async () => {
    const bex = (await openRoom()).as('bex')
    const line = '/mix product:"Cawderly Spot" tank:"2 gal" sprayer:"Hand can" rate:"0.5 % v/v"'
    expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
      "
      /mix product:"Cawderly Spot" tank:"2 gal" sprayer:"Hand can" rate:"0.5 % v/v"
          heads-up: 37.5 mL of Cawderly Spot (1.268 fl oz)
          Measure with: small cylinder (0.5 mL steps)
          37.5 mL of methylated seed oil goes in as well.
          Half the water, then the product, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 0.4953 % v/v.
          On the ground that is 0.634 fl oz/1000 ft².
          Label: “Spot treatment: 0.25 to 0.5 percent by volume, wet the leaves.”
          This entry was last held against its label on Wed, Apr 9, 2025. A lead looks again.
          No site given: turf, interval and this year’s total were not checked.
          > 1 Poured into Hand can
      "
    `)
    // At twice the output the same percentage is twice the rate: above 2 pt per acre at one time.
    expect(await onScreen(bex, `${line} for:"Teo Almendrique"`)).toMatchInlineSnapshot(`
      "
      /mix product:"Cawderly Spot" tank:"2 gal" sprayer:"Hand can" rate:"0.5 % v/v" for:"Teo Almendrique"
          refusal: No: at most 2 pt/acre at one time. This is 3.485 pt/acre.
          Label, page 3: “Spot spray never to pass 2 pt per acre (0.73 fl oz per 1,000 sq ft).”
      "
    `)
  })

  test('the label’s own order of filling, for a product by the hundred gallons', async () => {
    const teo = (await openRoom()).as('teo')
    expect(
      await onScreen(
        teo,
        '/mix product:"Pellimoor 80 WP" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Pellimoor 80 WP" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn"
          answer: 18.1 g of Pellimoor 80 WP (0.6385 oz wt)
          Measure with: pocket scale (0.1 g steps)
          Order from the label:
          Half fill the tank
          Pour in the powder, stirred to a paste first
          Stir until no lumps are left
          Fill to the mark
          Fill to the 2 gal mark. Do not add 2 gal of water on top of the product.
          Covers 1,000 ft² at 2 gal/1000 ft².
          Gives 1.995 lb/100 gal.
          On the ground that is 0.0399 lb/1000 ft².
          Label: “Moss in lawns: 2 lb in 100 gallons of spray, sprayed at 2 to 4 gallons per 1,000 sq ft.”
          > 1 Poured into Hand can
      "
    `)
  })

  test('the output of whoever will spray decides', async () => {
    const bex = (await openRoom()).as('bex')
    const mix = '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can"'
    const [own, nila, teo] = [
      await bex(mix),
      await bex(`${mix} for:"Nila Quessarn"`),
      await bex(`${mix} for:"Teo Almendrique"`),
    ]
    // 2 gal cover 2,000, 1,538 and 1,000 ft² at 1, 1.3 and 2 gal per 1,000 ft².
    expect([own, nila, teo].map(({ facts }) => facts.concentrate_tool)).toEqual(['6.4 g', '4.9 g', '3.2 g'])
    expect(teo.lines).toContain(
      '0.0565 oz wt/gal at your output, 0.113 oz wt/gal at the usual one. Mix by yours.',
    )
  })

  test('a granule is spread and not mixed', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(bex, '/mix product:"Harmottle 0.5 G" tank:"2 gal" sprayer:"Hand can" line:granules'),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Harmottle 0.5 G" tank:"2 gal" sprayer:"Hand can" line:granules
          refusal: No: Harmottle 0.5 G is a granule. It is spread, not mixed
      "
    `)
  })

  test('a name that is nearly right is asked about, one that is not at all is said so', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Tarnbrask" tank:"1/2" sprayer:"hand can"',
        '> 1',
        '/mix product:"Nosuch" tank:"1/2"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask" tank:"1/2" sprayer:"hand can"
          question: Which product is “Tarnbrask”?
          > 1 Tarnbrask 75 WDG
          > 2 Stilbrack 41 SL
      > 1
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
      /mix product:"Nosuch" tank:"1/2"
          question: There is no product called “Nosuch”
      "
    `)
  })
})
