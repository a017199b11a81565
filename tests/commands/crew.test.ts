import { describe, expect, test } from 'vitest'
import { onScreen, openRoom } from './open-room.ts'

describe('what only a lead may do', () => {
  test.each([
    ['/site add'],
    ['/site area site:"Ospelwick School"'],
    ['/site retire site:"Ospelwick School"'],
    ['/sprayer add name:X tank:"2 gal"'],
    ['/sprayer retire sprayer:"Hand can"'],
    ['/label add'],
    ['/label revise product:"Tarnbrask 75 WDG"'],
    ['/label retire product:"Tarnbrask 75 WDG"'],
    ['/setup crew state:TX'],
    ['/setup tool name:X'],
    ['/setup person person:"Bex Yolvarren" role:lead'],
  ])('%s', async (line) => {
    const bex = (await openRoom()).as('bex')
    expect((await bex(line)).screen).toEqual(['refusal: Only a lead may do this'])
  })
})

describe('/site', () => {
  test('one property on one screen', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(bex, '/site show site:"Plimmet Street House"', '/site show site:Plimet', '/site list'),
    ).toMatchInlineSnapshot(`
      "
      /site show site:"Plimmet Street House"
          answer: Plimmet Street House
          12 Plimmet Street, Fallowquay, NC 00012
          Front lawn: 4,200 ft², Tall fescue (lawn)
          Front lawn: last Bellstrake 3 L, Mon, Feb 23, 2026
          Bellstrake 3 L: the wait is over
          Left this year of Bellstrake 3 L: 1.5 lb ae/acre
          Back lawn: 5,600 ft², Tall fescue and Kentucky bluegrass (lawn)
          Back lawn: nothing on record
          Pets: Two dogs; ask to keep them in until the lawn is dry.
          Water: Garden pond, 18 ft from the back lawn.
      /site show site:Plimet
          question: Which site is “Plimet”?
          > 1 Plimmet Street House
      /site list
          answer: 6 sites
          Fallowquay Ballpark: 3 areas, 102,400 ft²
          Harbor Cottages: 2 areas, 4,000 ft²
          Ospelwick School: 2 areas, 82,700 ft²
          Plimmet Street House: 2 areas, 9,800 ft²
          Tolverdine Office Park: 2 areas, 25,900 ft²
          Wrennoch Chapel: one area, 12,500 ft²
      "
    `)
  })

  test('a new one in two steps, with one wrong field', async () => {
    const room = await openRoom()
    expect(
      await onScreen(
        room.as('lead'),
        '/site add',
        '= name:"Demo Corner" address:"1 Demo Lane, Ospelwick, NC 00011"',
        '= name:Front size:"6000 ft2" turfs:"tall fescue, plastic" use:lawn',
        '= turfs:"tall fescue"',
        '/site area site:"Demo Corner" area:Back',
        '= size:"0.5 acre" turfs:centipedegrass',
      ),
    ).toMatchInlineSnapshot(`
      "
      /site add
          question: Two short steps. First: where is it?
          = name, address, customer, mind, photo
      = name:"Demo Corner" address:"1 Demo Lane, Ospelwick, NC 00011"
          question: Demo Corner: now its first area
          = name, size, turfs, use, seeded
      = name:Front size:"6000 ft2" turfs:"tall fescue, plastic" use:lawn
          question: Not saved yet: something needs another look
          “plastic” is not a lawn grass in the list. Use its common name.
          = name, size, turfs, use, seeded
      = turfs:"tall fescue"
          answer: Demo Corner is in the list
          1 Demo Lane, Ospelwick, NC 00011
          Front: 6,000 ft², Tall fescue (lawn)
          Front: nothing on record
      /site area site:"Demo Corner" area:Back
          question: New area of Demo Corner
          = name, size, turfs, use, seeded
      = size:"0.5 acre" turfs:centipedegrass
          answer: Back is kept under Demo Corner
          1 Demo Lane, Ospelwick, NC 00011
          Front: 6,000 ft², Tall fescue (lawn)
          Front: nothing on record
          Back: 21,780 ft², Centipedegrass (lawn)
          Back: nothing on record
      "
    `)
    const mixed = await room.as('bex')(
      '/mix product:"Tarnbrask 75 WDG" sprayer:"Hand can" tank:1 site:"Demo Corner" area:Front',
    )
    expect(mixed.outcome).toBe('answer')
  })

  test('retired, it is gone from the lists', async () => {
    const room = await openRoom()
    await room.as('lead')('/site retire site:"Wrennoch Chapel"')
    expect((await room.as('bex')('/site list')).title).toBe('5 sites')
  })
})

describe('/sprayer', () => {
  test('contents and outputs on one screen', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/sprayer show',
        '/sprayer show sprayer:"Hand can"',
        '/sprayer cleaned sprayer:"Hand can" rinsed:no',
        '/sprayer cleaned sprayer:"Hand can"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /sprayer show
          answer: 4 sprayers
          Backpack: 4 gal tank
          Boom: 60 gal tank
          Gun tank: 100 gal tank
          Hand can: 2 gal tank
      /sprayer show sprayer:"Hand can"
          answer: Hand can: 2 gal tank
          Marks every 0.25 gal
          Tip: cone, yellow ring. Pressure: pumped by hand.
          Empty and rinsed (Bex Yolvarren, Sun, May 3, 2026, 9:00 AM).
          Odalys Trennquist: 1.1 gal/1000 ft², measured Wed, Mar 25, 2026
          Bex Yolvarren: 1 gal/1000 ft², measured Wed, Apr 22, 2026
          Nila Quessarn: 1.3 gal/1000 ft², measured Tue, Apr 14, 2026
          Teo Almendrique: 2 gal/1000 ft², measured Wed, Apr 1, 2026
      /sprayer cleaned sprayer:"Hand can" rinsed:no
          answer: Noted: Hand can is empty, not rinsed
      /sprayer cleaned sprayer:"Hand can"
          answer: Noted: Hand can is empty and rinsed
      "
    `)
  })

  test('a tank that cannot be', async () => {
    const lead = (await openRoom()).as('lead')
    expect(
      await onScreen(
        lead,
        '/sprayer add name:X tank:"10,000 gal"',
        '/sprayer add name:X tank:"2 gal" marks:"3 gal"',
      ),
    ).toMatchInlineSnapshot(`
      "
      /sprayer add name:X tank:"10,000 gal"
          refusal: Cannot keep that sprayer
          tank: “10,000 gal” is more than 5,000 gal, the most that makes sense here. Check the number and the unit.
      /sprayer add name:X tank:"2 gal" marks:"3 gal"
          refusal: Cannot keep that sprayer
          marks: The marks are wider apart than the tank holds.
      "
    `)
    expect((await lead('/sprayer show')).title).toBe('4 sprayers')
  })
})

describe('/setup', () => {
  test('a person’s own settings', async () => {
    const bex = (await openRoom()).as('bex')
    expect(await onScreen(bex, '/setup me units:metric')).toMatchInlineSnapshot(`
      "
      /setup me units:metric
          answer: Bex Yolvarren: your settings
          Language: English
          Units: metric
          You work as the crew: Mon, Tue, Wed, Thu, and Fri
      "
    `)
  })

  test('a person’s own days of work and days off, kept and shown again', async () => {
    const bex = (await openRoom()).as('bex')
    expect(
      await onScreen(
        bex,
        '/setup me work_days:mon-thu days_off:"2026-07-06 to 2026-07-10; 12/24"',
        '/setup me',
        '/setup me work_days:crew days_off:none',
      ),
    ).toMatchInlineSnapshot(`
      "
      /setup me work_days:mon-thu days_off:"2026-07-06 to 2026-07-10; 12/24"
          answer: Bex Yolvarren: your settings
          Language: English
          Units: as the crew
          You work: Mon, Tue, Wed, and Thu
          Off: Mon, Jul 6, 2026 to Fri, Jul 10, 2026 and Thu, Dec 24, 2026
      /setup me
          answer: Bex Yolvarren: your settings
          Language: English
          Units: as the crew
          You work: Mon, Tue, Wed, and Thu
          Off: Mon, Jul 6, 2026 to Fri, Jul 10, 2026 and Thu, Dec 24, 2026
      /setup me work_days:crew days_off:none
          answer: Bex Yolvarren: your settings
          Language: English
          Units: as the crew
          You work as the crew: Mon, Tue, Wed, Thu, and Fri
      "
    `)
  })

  test.each([
    ['work_days:sometimes', 'They are no days of the week'],
    ['days_off:"next week maybe"', 'no days'],
    ['days_off:"2026-07-10 to 2026-07-06"', 'the end comes first'],
    ['days_off:"2026-07-06 to 2027-07-06"', 'a year off is a slip of the pen'],
  ])('/setup me %s changes nothing: %s', async (typed) => {
    const bex = (await openRoom()).as('bex')
    const said = await bex(`/setup me units:metric ${typed}`)
    expect(said.outcome).toBe('refusal')
    expect(said.lines).toHaveLength(1)
    expect((await bex('/setup me')).lines).toContain('Units: as the crew')
  })

  test('the crew’s, with a state and a zone that are none', async () => {
    const lead = (await openRoom()).as('lead')
    expect(
      await onScreen(
        lead,
        '/setup crew state:ZZ zone:"Mars/North" calibration_note:400',
        '/setup crew state:TX zone:America/Chicago calibration_note:60',
        '/setup tool name:"kitchen scale" kind:scale step:"1 g"',
        '/setup tool name:"kitchen scale" remove:yes',
        '/setup tool name:jug',
      ),
    ).toMatchInlineSnapshot(`
      "
      /setup crew state:ZZ zone:"Mars/North" calibration_note:400
          refusal: Cannot keep that setting
          “ZZ” is not a US state. Use its two letters, such as TX. Outside the US these rules do not hold: ask the authority there.
          “Mars/North” is not a time zone. Write it like America/Chicago.
          The note (400 days) must come before the hold (365 days).
      /setup crew state:TX zone:America/Chicago calibration_note:60
          answer: Pennicombe Sward Crew (demo): settings
          State: TX
          Time zone: America/Chicago
          Language: English
          Units: US
          Role that leads: none; whoever runs the server leads
          Outputs: a note after 60 days, a hold after 365.
          Label entries: checked every 365 days, held 60 days after that.
          Business: not set
          Records kept 7 years, longer where a rule asks
          pocket scale: 0.1 g steps
          small cylinder: 0.5 mL steps
          measuring jug: 0.5 fl oz steps
          tablespoon: 1 tbsp steps
          teaspoon: 1 tsp steps
      /setup tool name:"kitchen scale" kind:scale step:"1 g"
          answer: kitchen scale is kept
          kitchen scale: 1 g steps
      /setup tool name:"kitchen scale" remove:yes
          answer: kitchen scale is off the list
      /setup tool name:jug
          refusal: Cannot keep that setting
          step: How fine does it measure? Write 0.1 g, 0.5 fl oz or 1 tsp.
      "
    `)
  })

  test('leads, licenses and deputies', async () => {
    const room = await openRoom()
    expect(
      await onScreen(
        room.as('odalys'),
        '/setup person person:"Hob Stowbrimmer" license:DEMO-0009',
        '/setup person person:"Hob Stowbrimmer" role:lead license:DEMO-0009 expires:2027-06-30',
        '/setup person person:"Nila Quessarn" deputy:yes',
      ),
    ).toMatchInlineSnapshot(`
      "
      /setup person person:"Hob Stowbrimmer" license:DEMO-0009
          refusal: Cannot keep that setting
          Give the day on which the license expires too.
      /setup person person:"Hob Stowbrimmer" role:lead license:DEMO-0009 expires:2027-06-30
          answer: Hob Stowbrimmer
          Lead
          License DEMO-0009, good until Wed, Jun 30, 2027
      /setup person person:"Nila Quessarn" deputy:yes
          answer: Nila Quessarn
          Crew member
          May lift a hold as deputy of a licensed lead
      "
    `)
    expect(
      await onScreen(room.as('marl'), '/setup person person:"Bex Yolvarren" deputy:yes'),
    ).toMatchInlineSnapshot(`
      "
      /setup person person:"Bex Yolvarren" deputy:yes
          refusal: Cannot keep that setting
          Only a lead with a current license names a deputy.
      "
    `)
  })
})
