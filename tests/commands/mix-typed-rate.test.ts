import { describe, expect, test } from 'vitest'
import { onScreen, openRoom } from './open-room.ts'

/** Figures in this file: common practice, no source, unless one stands beside them. */
describe('a rate typed off a label in hand', () => {
  test('0.113 oz per 1,000 ft² at one gallon per 1,000 ft² is 0.226 oz for two gallons', async () => {
    const bex = (await openRoom()).as('bex')
    const line = '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"'
    expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
      "
      /mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"
          heads-up: 6.4 g of the product (0.2258 oz wt)
          Measure with: pocket scale (0.1 g steps)
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          No label entry was checked: this is your own reading of the label.
      "
    `)
    const { facts, shown } = await bex(line)
    expect(facts).toMatchObject({
      concentrate_exact: '0.226 oz wt',
      concentrate_tool: '6.4 g',
      tank: '2 gal',
    })
    expect(facts.area_covered).toBe('2000 ft2')
    expect(shown.presented.working).toMatchInlineSnapshot(`
      [
        "2 gal ÷ 1 gal/1000 ft² covers 2,000 ft².",
        "2,000 ft² × 0.113 oz wt/1000 ft² = 0.226 oz wt.",
        "6.407 g rounds down to 6.4 g on pocket scale.",
        "Back again: in 2 gal this gives 0.1129 oz wt/1000 ft².",
      ]
    `)
  })

  test('half as much per gallon for someone who puts out two gallons per 1,000 ft²', async () => {
    const bex = (await openRoom()).as('bex')
    const line = '/mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"2 gal/1000 ft2"'
    expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
      "
      /mix rate:"0.113 oz wt/1000 ft2" tank:"2 gal" output:"2 gal/1000 ft2"
          heads-up: 3.2 g of the product (0.1129 oz wt)
          Measure with: pocket scale (0.1 g steps)
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 1,000 ft² at 2 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          No label entry was checked: this is your own reading of the label.
          0.0565 oz wt/gal at your output, 0.113 oz wt/gal at the usual one. Mix by yours.
      "
    `)
    expect((await bex(line)).facts.concentrate_exact).toBe('0.113 oz wt')
  })

  test('words that other crews use are understood', async () => {
    const bex = (await openRoom()).as('bex')
    const { facts } = await bex(
      '/mix rate:"0.113 oz wt/1000 ft2" spray:"2 gal" carrier:"1.3 gal/1000 ft2" leftover:"0.5 gal" scale:"0.1 g"',
    )
    expect(facts.concentrate).toBe('3.6 g')
  })

  test('a spot mix by percent is told as a volume', async () => {
    const bex = (await openRoom()).as('bex')
    const line = '/mix rate:"0.5 % v/v" tank:"2 gal"'
    expect(await onScreen(bex, line)).toMatchInlineSnapshot(`
      "
      /mix rate:"0.5 % v/v" tank:"2 gal"
          heads-up: 37.5 mL of the product (1.268 fl oz)
          Measure with: small cylinder (0.5 mL steps)
          Half the water, then the product, then fill to the 2 gal mark.
          Gives 0.4953 % v/v.
          No label entry was checked: this is your own reading of the label.
      "
    `)
    // 0.5 % of 2 × 128 fl oz.
    expect((await bex(line)).facts.concentrate_exact).toBe('1.28 fl oz')
  })

  test('a rate that the book refused is answered, and every lead hears of it', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Tarnbrask 75 WDG" rate:"0.2 oz wt/1000 ft2" tank:"2 gal" sprayer:"Hand can"',
        '/mix rate:"0.2 oz/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"',
        '> 1',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" rate:"0.2 oz wt/1000 ft2" tank:"2 gal" sprayer:"Hand can"
          refusal: No: at most 0.113 oz wt/1000 ft². This is 0.2 oz wt/1000 ft².
          Label, page 4: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
      /mix rate:"0.2 oz/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2"
          question: 0.2 oz by weight or by volume? Write oz wt for a dry product, fl oz for a liquid.
          > 1 By weight (dry product)
          > 2 Fluid ounces (liquid)
      > 1
          heads-up: 11.3 g of the product (0.3986 oz wt)
          Measure with: pocket scale (0.1 g steps)
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 0.1993 oz wt/1000 ft².
          No label entry was checked: this is your own reading of the label.
          The book refused this rate for Tarnbrask 75 WDG. Your lead is told.
      "
    `)
    expect((await bex('+ 1 minute')).screen).toMatchInlineSnapshot(`
      [
        "heads-up: Bex Yolvarren typed 0.2 oz wt/1000 ft² off a label; the book had refused that rate for Tarnbrask 75 WDG",
      ]
    `)
  })

  test('what is missing is asked for', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(bex, '/mix', '= rate:"3 pt/acre"', '= tank:"2 gal"', '= output:"1 gal/1000 ft2"'),
    ).toMatchInlineSnapshot(`
      "
      /mix
          question: Which product, or which rate off the label?
          = rate
      = rate:"3 pt/acre"
          question: How much mix?
          = tank
      = tank:"2 gal"
          question: How much do you put out? It decides how strong to mix.
          = output
      = output:"1 gal/1000 ft2"
          heads-up: 65 mL of the product (2.198 fl oz)
          Measure with: small cylinder (0.5 mL steps)
          Half the water, then the product, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 2.992 pt/acre.
          No label entry was checked: this is your own reading of the label.
      "
    `)
  })

  test('an amount that the tool cannot tell is held, and a way out is proposed', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix rate:"0.01 oz wt/1000 ft2" tank:"1 gal" output:"1 gal/1000 ft2"',
        '/mix rate:"0.005 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2" scale:"1 g"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix rate:"0.01 oz wt/1000 ft2" tank:"1 gal" output:"1 gal/1000 ft2"
          hold: 0.2835 g cannot be measured well with pocket scale: 0.2 g would be 29 % off. More than 5 % is not an answer.
          0.01 g steps would do: use a finer tool.
          0.71 gal measures well: 0.2 g for it.
      /mix rate:"0.005 oz wt/1000 ft2" tank:"2 gal" output:"1 gal/1000 ft2" scale:"1 g"
          hold: 0.2835 g is less than one step (1 g) of scale. Not measurable, and not zero.
          0.01 g steps would do: use a finer tool.
      "
    `)
  })
})
