import { describe, expect, test } from 'vitest'
import { onScreen, openRoom, type Room } from './open-room.ts'

/** Puts a treatment of Tarnbrask on record, as if it had been logged. */
async function treat(
  room: Room,
  parts: { readonly site: string; readonly area: string; readonly on: string; readonly rate: string },
): Promise<void> {
  await room.store(async (store) => {
    const site = (await store.sites.list()).find(({ name }) => name === parts.site)
    const areas = await store.sites.listAreas(site?.id ?? 0)
    const area = areas.find(({ name }) => name === parts.area)
    const entry = await store.labels.findByName('Tarnbrask 75 WDG')
    const [person] = await store.people.list()
    if (area === undefined || entry?.live == null || person === undefined)
      throw new Error('The demo crew lacks something')
    await store.treatments.add(
      {
        areaId: area.id,
        entryId: entry.id,
        revisionId: entry.live.id,
        personId: person.id,
        treatedOn: parts.on,
        details: {
          product: entry.name,
          rate: parts.rate,
          lineId: 'sedges',
          treatedFt2: area.squareFeet,
          amount: null,
          note: '',
        },
      },
      0,
    )
  })
}

describe('a refusal names the label line that causes it', () => {
  test('turf that the label forbids', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Dunvarrow 2 SC" tank:"2 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Infield',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Dunvarrow 2 SC" tank:"2 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Infield
          refusal: No: the label forbids it on Hybrid bermudagrass.
          Label, page 3: “Severe injury to bermudagrass: do not use.”
      "
    `)
  })

  test('turf that no line of the label lists', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Fennowick 4 EC" tank:"2 gal" sprayer:"Hand can" site:"Harbor Cottages" area:"Shore lawn"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Fennowick 4 EC" tank:"2 gal" sprayer:"Hand can" site:"Harbor Cottages" area:"Shore lawn"
          refusal: No: St. Augustinegrass is not on the label.
          Label, page 4: “Before emergence, first treatment: 2 to 3 pt per acre.”
          25 ft from water at least. Measure how near the water is.
          Label, page 3: “Keep 25 ft from ponds and streams.”
      "
    `)
  })

  test('above the highest rate, and below what the label allows at least', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Bellstrake 3 L" rate:"5 pt/acre" line:cool-spring tank:"2 gal" sprayer:"Hand can"',
        '/mix product:"Fennowick 4 EC" rate:"1 pt/acre" line:before-first tank:"2 gal" sprayer:"Hand can"',
        '/mix product:"Pellimoor 80 WP" tank:"2 gal" sprayer:"Hand can"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Bellstrake 3 L" rate:"5 pt/acre" line:cool-spring tank:"2 gal" sprayer:"Hand can"
          refusal: No: at most 4 pt/acre. This is 5 pt/acre.
          Label, page 5: “Cool-season lawns, spring, first treatment: 3 to 4 pt per acre (1.1 to 1.5 fl oz per 1,000 sq ft).”
          No: at most 4 pt/acre at one time. This is 5 pt/acre.
          Label, page 3: “Never more than 4 pt per acre (1.5 fl oz per 1,000 sq ft) at one time.”
      /mix product:"Fennowick 4 EC" rate:"1 pt/acre" line:before-first tank:"2 gal" sprayer:"Hand can"
          refusal: No: at least 2 pt/acre. This is 1 pt/acre, and the label forbids less.
          Label, page 4: “Do not use less than the rates given.”
      /mix product:"Pellimoor 80 WP" tank:"2 gal" sprayer:"Hand can"
          refusal: No: at least 2 gal/1000 ft² of spray. This is 1 gal/1000 ft².
          Label, page 3: “Moss in lawns: 2 lb in 100 gallons of spray, sprayed at 2 to 4 gallons per 1,000 sq ft.”
      "
    `)
  })

  test('an adjuvant that is needed and left out, or forbidden and put in', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" adjuvant:no',
        '/mix product:"Dunvarrow 2 SC" rate:"0.25 fl oz/1000 ft2" line:young-crab tank:"2 gal" sprayer:"Hand can" adjuvant:"0.25 % v/v"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" adjuvant:no
          refusal: No: the label wants nonionic surfactant in the tank.
          Label, page 4: “Always add a nonionic surfactant at 0.25 percent by volume.”
      /mix product:"Dunvarrow 2 SC" rate:"0.25 fl oz/1000 ft2" line:young-crab tank:"2 gal" sprayer:"Hand can" adjuvant:"0.25 % v/v"
          refusal: No: the label forbids any adjuvant.
          Label, page 4: “Do not add any adjuvant.”
      "
    `)
  })

  test('too hot for the product', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Bellstrake 3 L" rate:"3 pt/acre" line:cool-spring tank:"2 gal" sprayer:"Hand can" temperature:88',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Bellstrake 3 L" rate:"3 pt/acre" line:cool-spring tank:"2 gal" sprayer:"Hand can" temperature:88
          refusal: No: at most 85 °F. It is 88 °F.
          Label, page 4: “Do not spray above 85 F.”
      "
    `)
  })

  test('new sod has to wait', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Bellstrake 3 L" rate:"2 pt/acre" season:summer tank:"1 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Bullpen',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Bellstrake 3 L" rate:"2 pt/acre" season:summer tank:"1 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Bullpen
          refusal: No: new sod waits 28 days, until Wed, May 13, 2026.
          Label, page 3: “New sod: wait 4 weeks.”
      "
    `)
  })
})

describe('ground that was treated before', () => {
  const mix =
    '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Infield'

  test('is asked about before the label refuses, and the refusal says until when', async () => {
    const bex = (await openRoom()).as('bex')
    expect(await onScreen(bex, mix, '> 1')).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Fallowquay Ballpark" area:Infield
          question: Is it the same ground as last time?
          > 1 Same spots as last time
          > 2 Other spots
          > 3 A strip missed then
      > 1
          refusal: No: 28 days between treatments. The last was on Fri, Apr 24, 2026, the next is from Fri, May 22, 2026.
          Label, page 3: “Wait at least 28 days before a second treatment.”
      "
    `)
    expect((await bex(`${mix} spots:same`)).facts).toEqual({ next_treatment: '2026-05-22' })
  })

  test('other spots are answered', async () => {
    const bex = (await openRoom()).as('bex')
    const { outcome, title } = await bex(mix, '> 2')
    expect([outcome, title]).toEqual(['answer', '6.4 g of Tarnbrask 75 WDG (0.2258 oz wt)'])
  })

  test('0.113 oz in May on a strip, again in July: refused, since 0.087 oz is left of 0.2 oz a year', async () => {
    const room = await openRoom('2026-07-06T09:00:00-04:00')
    const place = { site: 'Plimmet Street House', area: 'Front lawn' }
    await treat(room, { ...place, on: '2026-05-04', rate: '0.113 oz wt/1000 ft2' })
    const bex = room.as('bex')
    const again =
      '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn"'
    expect(await onScreen(bex, again, '> 1')).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn"
          question: Is it the same ground as last time?
          > 1 Same spots as last time
          > 2 Other spots
          > 3 A strip missed then
      > 1
          refusal: No: 0.087 oz wt/1000 ft² is left of 0.2 oz wt/1000 ft² a year on this ground. This is 0.113 oz wt/1000 ft².
          Label, page 3: “No more than 0.2 oz per 1,000 sq ft (8.7 oz per acre) in any 12 months.”
      "
    `)
    const other = await bex(`${again} spots:other`)
    expect([other.outcome, other.facts.concentrate_tool]).toEqual(['answer', '6.4 g'])
    expect(other.facts.left_this_year).toBe('0.2 oz wt/1000 ft2')
    const less = await bex(`${again} spots:same rate:"0.087 oz wt/1000 ft2"`)
    expect([less.outcome, less.facts.left_this_year]).toEqual(['heads-up', '0.087 oz wt/1000 ft2'])
  })

  test('a fourth treatment where the label allows three', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Cawderly Spot" rate:"0.5 % v/v" tank:"2 gal" sprayer:"Hand can" site:"Wrennoch Chapel" spots:same',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Cawderly Spot" rate:"0.5 % v/v" tank:"2 gal" sprayer:"Hand can" site:"Wrennoch Chapel" spots:same
          refusal: No: 3 of 3 treatments a year on this ground. The next is from Fri, Dec 25, 2026.
          Label, page 3: “Three treatments in 12 months at most.”
      "
    `)
  })
})

describe('holds', () => {
  test('a weed that is not on the label, lifted by a licensed lead with a written reason', async () => {
    const room = await openRoom()
    const mix =
      '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn" weed:dallisgrass'
    expect(await onScreen(room.as('bex'), mix, '> 1')).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn" weed:dallisgrass
          hold: Dallisgrass is not on the label. A licensed lead decides.
          > 1 Lift this hold (licensed lead)
      > 1
          refusal: Only a lead may do this
      "
    `)
    expect(
      await onScreen(
        room.as('odalys'),
        mix,
        '> 1',
        '= reason:"too short"',
        '= reason:"Looked with the county agent, two plants"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn" weed:dallisgrass
          hold: Dallisgrass is not on the label. A licensed lead decides.
          > 1 Lift this hold (licensed lead)
      > 1
          question: Why does this hold not apply here today?
          = reason
      = reason:"too short"
          question: Why does this hold not apply here today?
          Write the reason in a few words: it stays on record under your name.
          = reason
      = reason:"Looked with the county agent, two plants"
          heads-up: 5.8 g of Tarnbrask 75 WDG (0.2046 oz wt)
          Measure with: pocket scale (0.1 g steps)
          18.5 mL of nonionic surfactant goes in as well.
          Half the water, then the product, stir until it is gone, then fill to the 2 gal mark.
          Covers 1,818 ft² at 1.1 gal/1000 ft².
          Gives 0.1125 oz wt/1000 ft².
          Label: “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          Hold lifted by Odalys Trennquist: Looked with the county agent, two plants
          0.113 oz wt/1000 ft² decides here. The 4.9 oz wt/acre beside it is the same limit, rounded.
          0.1027 oz wt/gal at your output, 0.113 oz wt/gal at the usual one. Mix by yours.
          > 1 Poured into Hand can
      "
    `)
    expect((await room.as('bex')(mix)).outcome).toBe('heads-up')
  })

  test('turf that nobody has named', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Harbor Cottages" area:"Path strip"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" site:"Harbor Cottages" area:"Path strip"
          hold: Nobody knows which grass grows here. Find out first.
          > 1 Lift this hold (licensed lead)
      "
    `)
  })

  test('an entry that nobody held against its label for long: first a note, then a hold', async () => {
    const bex = (await openRoom()).as('bex')
    const note = await bex('/mix product:"Cawderly Spot" rate:"0.5 % v/v" tank:"2 gal" sprayer:"Hand can"')
    expect(note.lines).toContain(
      'This entry was last held against its label on Wed, Apr 9, 2025. A lead looks again.',
    )
    expect(
      await onScreen(bex, '/mix product:"Yarvendel 50 WG" tank:"2 gal" sprayer:"Hand can"'),
    ).toMatchInlineSnapshot(`
      "
      /mix product:"Yarvendel 50 WG" tank:"2 gal" sprayer:"Hand can"
          hold: This entry was last held against its label on Tue, Feb 18, 2025. That is too long ago: a lead looks first.
      "
    `)
  })
})
