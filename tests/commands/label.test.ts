import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { describe, expect, onTestFinished, test } from 'vitest'
import { demoEntry } from '#tests/helpers/rows.ts'
import { onScreen, openRoom } from './open-room.ts'

/** Three steps typed on a phone, from an invented label. */
const ADD = [
  '/label add',
  '= name:"Demo Nine" formulation:SL registration:9999999-12 actives:"demolin 2 lb ai/gal, group 98" signal:CAUTION',
  '= line:"Demo weeds in tall fescue: 1 fl oz per 1,000 sq ft." turfs:"tall fescue" weeds:dandelion rates:"1 fl oz/1000 ft2" limits:"2 fl oz/1000 ft2 a year; 28 days"',
  '> 2',
  '= mixing:"Gloves" spraying:"Gloves" keep_off:"Until dry" first_aid:"Eyes: rinse with clean water" label:"D-9 2026-01-15"',
] as const

const file = (text: string) => {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-label-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const place = path.join(folder, 'book.json')
  writeFileSync(place, text)
  return place
}

describe('a new product', () => {
  test('is typed in three steps, and goes live when a second person has retyped it', async () => {
    const room = await openRoom()
    const lead = room.as('odalys')
    expect(await onScreen(lead, ...ADD)).toMatchInlineSnapshot(`
      "
      /label add
          question: Three short steps, typed from the label. First: the product
          = name, formulation, registration, actives, signal
      = name:"Demo Nine" formulation:SL registration:9999999-12 actives:"demolin 2 lb ai/gal, group 98" signal:CAUTION
          question: Now one rate line
          = line, turfs, weeds, rates, limits
      = line:"Demo weeds in tall fescue: 1 fl oz per 1,000 sq ft." turfs:"tall fescue" weeds:dandelion rates:"1 fl oz/1000 ft2" limits:"2 fl oz/1000 ft2 a year; 28 days"
          question: One rate line so far. Another one?
          > 1 Another rate line
          > 2 No, go on
          > 3 What has to wait after
      > 2
          question: Last: what to wear, and which label this is
          = mixing, spraying, keep_off, first_aid, label
      = mixing:"Gloves" spraying:"Gloves" keep_off:"Until dry" first_aid:"Eyes: rinse with clean water" label:"D-9 2026-01-15"
          answer: Demo Nine is kept and waits for a second person
          Somebody else types the rates again from the label: /label confirm product:"Demo Nine"
          SL: demolin 2 lb ai/gal
          Reg. No. 9999999-12; label D-9 of Thu, Jan 15, 2026
          “Demo weeds in tall fescue: 1 fl oz per 1,000 sq ft.”
          1 fl oz/1000 ft2 on Tall fescue
          At most 2 fl oz/1000 ft2 a calendar year
          28 days between treatments
      "
    `)
    expect((await room.as('bex')('/mix product:"Demo Nine" tank:"2 gal" sprayer:"Hand can"')).screen).toEqual(
      ['hold: Demo Nine waits for a second person to retype its rate. Until then it is not used.'],
    )
    expect((await lead('/label confirm product:"Demo Nine"')).screen).toEqual([
      'hold: A second person must type the figures again. You entered them.',
    ])
    expect(
      await onScreen(
        room.as('bex'),
        '/label confirm product:"Demo Nine"',
        '= f1:"10 fl oz/1000 ft2" f2:"2 fl oz/1000 ft2"',
        '= f1:"1 fl oz/1000 ft2"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /label confirm product:"Demo Nine"
          question: Demo Nine: 2 figures to type from the label
          Read the label in your hand, not anybody’s notes.
          = f1, f2
      = f1:"10 fl oz/1000 ft2" f2:"2 fl oz/1000 ft2"
          question: Demo Nine: one figure to type from the label
          Rate 1, highest: Demo weeds in tall fescu: “10 fl oz/1000 ft2” is another number than what was entered. Look at the label together.
          Read the label in your hand, not anybody’s notes.
          = f1
      = f1:"1 fl oz/1000 ft2"
          answer: Demo Nine is in force
          SL: demolin 2 lb ai/gal
          Reg. No. 9999999-12; label D-9 of Thu, Jan 15, 2026
          “Demo weeds in tall fescue: 1 fl oz per 1,000 sq ft.”
          1 fl oz/1000 ft2 on Tall fescue
          At most 2 fl oz/1000 ft2 a calendar year
          28 days between treatments
      "
    `)
    expect((await room.as('bex')('/mix product:"Demo Nine" tank:"2 gal" sprayer:"Hand can"')).title).toBe(
      '59 mL of Demo Nine (1.995 fl oz)',
    )
  })

  test('wrong fields bring the form back, filled in, with every problem', async () => {
    const lead = (await openRoom()).as('odalys')
    expect(
      await onScreen(
        lead,
        '/label add',
        '= name:"Demo Nine" formulation:SL registration:9999999-12 actives:"nothing readable" signal:CAUTION',
      ),
    ).toMatchInlineSnapshot(`
      "
      /label add
          question: Three short steps, typed from the label. First: the product
          = name, formulation, registration, actives, signal
      = name:"Demo Nine" formulation:SL registration:9999999-12 actives:"nothing readable" signal:CAUTION
          question: Not saved yet: something needs another look
          Cannot read the active ingredient “nothing readable”. Write it as: Name 75 % ai, group 2.
          = name, formulation, registration, actives, signal
      "
    `)
    const { shown } = await lead(
      '/label add',
      '= name:"Demo Nine" formulation:SL registration:1 actives:x signal:CAUTION',
    )
    expect(shown.presented.form?.fields.find(({ name }) => name === 'name')?.value).toBe('Demo Nine')
  })
})

describe('a file of entries', () => {
  test('is kept whole; new rates wait for a second person', async () => {
    const lead = (await openRoom()).as('odalys')
    const entries = [demoEntry({ name: 'Demo Ten' }), demoEntry({ name: 'Demo Eleven' })]
    const place = file(JSON.stringify({ entries }))
    expect((await lead(`/label add file:"${place}"`)).screen).toEqual([
      'heads-up: 2 entries kept',
      'Demo Ten: waits for a second person',
      'Demo Eleven: waits for a second person',
    ])
  })

  test('with one wrong entry keeps nothing, and names row and field', async () => {
    const lead = (await openRoom()).as('odalys')
    const wrong = { ...demoEntry({ name: 'Demo Eleven' }), signalWord: 'CAREFUL', extra: 1 }
    const place = file(JSON.stringify({ entries: [demoEntry({ name: 'Demo Ten' }), wrong] }))
    const { outcome, title, lines } = await lead(`/label add file:"${place}"`)
    expect([outcome, title]).toEqual(['refusal', 'Nothing was kept: 2 problems'])
    expect(lines).toMatchInlineSnapshot(`
      [
        "Row 2 (Demo Eleven), signalWord: must be DANGER-POISON, DANGER, WARNING, CAUTION, or none.",
        "Row 2 (Demo Eleven), extra: no field of this name is known here.",
      ]
    `)
    expect((await lead('/label list')).title).toBe('11 products')
  })

  test('that is no JSON is said so', async () => {
    const lead = (await openRoom()).as('odalys')
    expect((await lead(`/label add file:"${file('{ entries: ')}"`)).outcome).toBe('refusal')
    expect((await lead('/label list')).title).toBe('11 products')
  })
})

describe('a changed rate', () => {
  const revise = [
    '/label revise product:"Tarnbrask 75 WDG"',
    '= rates:"1.13 oz/1000 ft2" year:"2 oz wt/1000 ft2" label:"DEMO-01-B 2026-03-01"',
  ]

  test('ten times the old one is pointed out, and the old revision stays in force', async () => {
    const room = await openRoom()
    expect(await onScreen(room.as('odalys'), ...revise)).toMatchInlineSnapshot(`
      "
      /label revise product:"Tarnbrask 75 WDG"
          question: Tarnbrask 75 WDG: type over what changed
          = line, rates, year, interval, label
      = rates:"1.13 oz/1000 ft2" year:"2 oz wt/1000 ft2" label:"DEMO-01-B 2026-03-01"
          heads-up: Tarnbrask 75 WDG is kept and waits for a second person
          1.13 oz wt/1000 ft² now, 0.113 oz wt/1000 ft² before: 10 times as much. A decimal point may have moved. Check the label.
          2 oz wt/1000 ft² now, 0.2 oz wt/1000 ft² before: 10 times as much. A decimal point may have moved. Check the label.
          Somebody else types the rates again from the label: /label confirm product:"Tarnbrask 75 WDG"
          WDG: tarvomelid 75 % ai
          Reg. No. 9999999-1; label DEMO-01-B of Sun, Mar 1, 2026
          “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          1.13 oz/1000 ft2 on Kentucky bluegrass, Tall fescue, Perennial ryegrass, bermudagrass (Common bermudagrass and Hybrid bermudagrass), zoysiagrass (Japanese lawngrass (coarse zoysia) and Manilagrass (fine zoysia)), Centipedegrass, and St. Augustinegrass
          Never on Creeping bentgrass
          At most 2 oz wt/1000 ft2 a rolling year
          28 days between treatments
          No mowing 2 days before
          No mowing 2 days after
          4 hours without rain
          Keep people and pets off until it has dried.
          No seed for 28 days
          It works through leaf and soil.
      "
    `)
    const { facts } = await room.as('bex')('/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can"')
    expect([facts.label_version, facts.concentrate_tool]).toEqual([
      'DEMO-01-A (2024-11-04), entry 1',
      '6.4 g',
    ])
  })

  test('an answer names the revision that it used', async () => {
    const room = await openRoom()
    await room.as('odalys')(
      '/label revise product:"Tarnbrask 75 WDG"',
      '= rates:"0.1 oz/1000 ft2" label:"DEMO-01-B 2026-03-01"',
    )
    await room.as('bex')('/label confirm product:"Tarnbrask 75 WDG"', '= f1:"0.1 oz/1000 ft2"')
    const { facts } = await room.as('bex')('/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can"')
    expect(facts).toMatchObject({
      label_version: 'DEMO-01-B (2026-03-01), entry 2',
      concentrate_exact: '0.2 oz wt',
    })
  })
})

describe('holding the book against its labels', () => {
  test('a lead confirms one entry or all of them; a crew member does not', async () => {
    const room = await openRoom()
    expect(
      await onScreen(room.as('bex'), '/label confirm product:"Yarvendel 50 WG"', '> 1'),
    ).toMatchInlineSnapshot(`
      "
      /label confirm product:"Yarvendel 50 WG"
          question: Have you held Yarvendel 50 WG against its label?
          Version, date, rates, limits, turfs: everything as printed.
          > 1 Yes, all of it matches
      > 1
          refusal: Only a lead may do this
      "
    `)
    expect(await onScreen(room.as('odalys'), '/label confirm all:yes', '> 1')).toMatchInlineSnapshot(`
      "
      /label confirm all:yes
          question: Have you held all 11 entries against their labels?
          Version, date, rates, limits, turfs: everything as printed.
          > 1 Yes, all of it matches
      > 1
          answer: 11 entries checked today
      "
    `)
    const held = await room.as('bex')('/mix product:"Yarvendel 50 WG" tank:"2 gal" sprayer:"Hand can"')
    expect(held.title).toBe('Which rate? The label gives 0.4 oz wt/1000 ft² to 0.5 oz wt/1000 ft².')
  })

  test('a retired product is gone from the lists', async () => {
    const room = await openRoom()
    expect(
      await onScreen(room.as('odalys'), '/label retire product:"Pellimoor 80 WP"'),
    ).toMatchInlineSnapshot(`
      "
      /label retire product:"Pellimoor 80 WP"
          answer: Pellimoor 80 WP is out of use; its revisions stay
      "
    `)
    expect((await room.as('bex')('/label list')).lines.some((line) => line.startsWith('Pellimoor'))).toBe(
      false,
    )
    expect((await room.as('bex')('/mix product:"Pellimoor 80 WP" tank:"2 gal"')).outcome).toBe('question')
  })

  test('a product on one screen', async () => {
    const bex = (await openRoom()).as('bex')
    expect(await onScreen(bex, '/label show product:"Tarnbrask 75 WDG"')).toMatchInlineSnapshot(`
      "
      /label show product:"Tarnbrask 75 WDG"
          answer: Tarnbrask 75 WDG
          Last held against its label on Thu, Mar 5, 2026
          One revision on file
          WDG: tarvomelid 75 % ai
          Reg. No. 9999999-1; label DEMO-01-A of Mon, Nov 4, 2024
          “Sedges and kyllingas in listed turf: 0.113 oz per 1,000 sq ft (4.9 oz per acre).”
          0.113 oz wt/1000 ft2 or 4.9 oz wt/acre on Kentucky bluegrass, Tall fescue, Perennial ryegrass, bermudagrass (Common bermudagrass and Hybrid bermudagrass), zoysiagrass (Japanese lawngrass (coarse zoysia) and Manilagrass (fine zoysia)), Centipedegrass, and St. Augustinegrass
          Never on Creeping bentgrass
          At most 0.2 oz wt/1000 ft2 or 8.7 oz wt/acre a rolling year
          28 days between treatments
          No mowing 2 days before
          No mowing 2 days after
          4 hours without rain
          Keep people and pets off until it has dried.
          No seed for 28 days
          It works through leaf and soil.
      "
    `)
  })
})
