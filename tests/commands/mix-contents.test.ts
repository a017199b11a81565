import { describe, expect, test } from 'vitest'
import { onScreen, openRoom } from './open-room.ts'

const lawn = 'site:"Ospelwick School" area:"Entrance lawn"'
const tarnbrask = `/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" ${lawn}`
const bellstrake = `/mix product:"Bellstrake 3 L" rate:"3 pt/acre" line:cool-spring tank:"2 gal" sprayer:"Hand can" ${lawn}`

describe('what is in a sprayer', () => {
  test('one press says poured; the next question opens with who poured what and when', async () => {
    const room = await openRoom()
    expect(await onScreen(room.as('bex'), tarnbrask, '> 1')).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"
          answer: 6.4 g of Tarnbrask 75 WDG (0.2258 oz wt)
          Measure with: pocket scale (0.1 g steps)
          18.5 mL of nonionic surfactant goes in as well.
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
          > 1 Poured into Hand can
      > 1
          answer: Noted: 2 gal of Tarnbrask 75 WDG in Hand can
          This is mix 1.
          > 1 Log mix 1
          > 2 Not sprayed
      "
    `)
    const nila = room.as('nila')
    expect(await onScreen(nila, tarnbrask, '> 1')).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"
          question: Bex Yolvarren poured Tarnbrask 75 WDG into Hand can, Mon, May 4, 2026, 9:00 AM
          What is in it now?
          > 1 Empty, rinsed three times
          > 2 Empty, not rinsed
          = in_tank
      > 1
          answer: 4.9 g of Tarnbrask 75 WDG (0.1728 oz wt)
          Measure with: pocket scale (0.1 g steps)
          18.5 mL of nonionic surfactant goes in as well.
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 1,538 ft² at 1.3 gal/1000 ft².
          Gives 0.1123 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          0.08692 oz wt/gal at your output, 0.113 oz wt/gal at the usual one. Mix by yours.
          > 1 Poured into Hand can
      "
    `)
  })

  test('some of the same mix is left: it counts', async () => {
    const bex = (await openRoom()).as('bex')
    await bex(tarnbrask, '> 1')
    expect(await onScreen(bex, tarnbrask, '= in_tank:"1 gal"')).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"
          question: Bex Yolvarren poured Tarnbrask 75 WDG into Hand can, Mon, May 4, 2026, 9:00 AM
          What is in it now?
          > 1 Empty, rinsed three times
          > 2 Empty, not rinsed
          = in_tank
      = in_tank:"1 gal"
          answer: 3.2 g of Tarnbrask 75 WDG (0.1129 oz wt)
          Measure with: pocket scale (0.1 g steps)
          9 mL of nonionic surfactant goes in as well.
          1 gal is in the tank: add some water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
          Bex Yolvarren poured Tarnbrask 75 WDG into Hand can, Mon, May 4, 2026, 9:00 AM.
          > 1 Poured into Hand can
      "
    `)
  })

  test('empty and not rinsed is remembered', async () => {
    const bex = (await openRoom()).as('bex')
    await bex(tarnbrask, '> 1', tarnbrask, '> 2')
    const { outcome, lines } = await bex(bellstrake)
    expect(outcome).toBe('heads-up')
    expect(lines).toContain(
      'Hand can last held Tarnbrask 75 WDG, emptied and not rinsed. Rinse it if the label asks.',
    )
  })

  test('a different product on top is refused; into an empty tank it is asked whether that was rinsed', async () => {
    const bex = (await openRoom()).as('bex')
    await bex(tarnbrask, '> 1')
    expect(await onScreen(bex, `${bellstrake} in_tank:"1 gal"`, bellstrake, '> 1')).toMatchInlineSnapshot(`
      "
      /mix product:"Bellstrake 3 L" rate:"3 pt/acre" line:cool-spring tank:"2 gal" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn" in_tank:"1 gal"
          refusal: No: Hand can holds Tarnbrask 75 WDG, not this product
          Two products in one tank are asked for as a mix of both, so that both labels are checked.
      /mix product:"Bellstrake 3 L" rate:"3 pt/acre" line:cool-spring tank:"2 gal" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"
          question: Bex Yolvarren poured Tarnbrask 75 WDG into Hand can, Mon, May 4, 2026, 9:00 AM
          What is in it now?
          > 1 Empty, rinsed three times
          > 2 Empty, not rinsed
          = in_tank
      > 1
          answer: 65 mL of Bellstrake 3 L (2.198 fl oz)
          Measure with: small cylinder (0.5 mL steps)
          Half the water, then the product, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 2.992 pt/acre.
          Label: “Cool-season lawns, spring, first treatment: 3 to 4 pt per acre (1.1 to 1.5 fl oz per 1,000 sq ft).”
          > 1 Poured into Hand can
      "
    `)
  })

  test('contents that nobody logged are a hold until somebody rinses', async () => {
    const room = await openRoom()
    const lead = room.as('lead')
    await lead('/sprayer add name:"New can" tank:"2 gal" marks:"0.25 gal"')
    expect(
      await onScreen(
        room.as('bex'),
        '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"New can" output:"1 gal/1000 ft2"',
        '> 1',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"New can" output:"1 gal/1000 ft2"
          hold: Nobody knows what was last in New can
          Empty it, rinse tank, hose and tip three times, and press.
          > 1 It is empty and rinsed three times
      > 1
          heads-up: 6.4 g of Tarnbrask 75 WDG (0.2258 oz wt)
          Measure with: pocket scale (0.1 g steps)
          18.5 mL of nonionic surfactant goes in as well.
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          No site given: turf, interval and this year’s total were not checked.
          0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
          > 1 Poured into New can
      "
    `)
  })

  test('traces of what kills every green plant are a hold', async () => {
    const bex = (await openRoom('2026-01-12T09:00:00-05:00')).as('bex')
    await bex(
      '/mix product:"Stilbrack 41 SL" tank:"2 gal" sprayer:"Hand can" rate:"12 fl oz/acre" dormant:yes',
      '> 1',
      '/sprayer cleaned sprayer:"Hand can" rinsed:no',
    )
    expect(await onScreen(bex, tarnbrask, '> 1')).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Ospelwick School" area:"Entrance lawn"
          hold: Hand can last held Stilbrack 41 SL, which kills every green plant
          Empty it, rinse tank, hose and tip three times, and press.
          > 1 It is empty and rinsed three times
      > 1
          answer: 6.4 g of Tarnbrask 75 WDG (0.2258 oz wt)
          Measure with: pocket scale (0.1 g steps)
          18.5 mL of nonionic surfactant goes in as well.
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 2,000 ft² at 1 gal/1000 ft².
          Gives 0.1129 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
          > 1 Poured into Hand can
      "
    `)
  })

  test('traces of what this turf does not stand are a hold', async () => {
    const bex = (await openRoom()).as('bex')
    await bex(
      '/mix product:"Dunvarrow 2 SC" rate:"0.25 fl oz/1000 ft2" line:young-crab tank:"2 gal" sprayer:"Hand can"',
      '> 1',
      '/sprayer cleaned sprayer:"Hand can" rinsed:no',
    )
    expect(
      await onScreen(
        bex,
        '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Outfield',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Outfield
          hold: Hand can last held Dunvarrow 2 SC, which is not for this turf
          Empty it, rinse tank, hose and tip three times, and press.
          > 1 It is empty and rinsed three times
      "
    `)
  })
})
