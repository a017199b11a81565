import { describe, expect, test } from 'vitest'
import { verifyChain } from '#src/record/chain.ts'
import { loadStateRules } from '../../data/states/load.ts'
import { fillForms, press } from './fill-log.ts'
import { openRoom, type Room, type Said, type Typing } from './open-room.ts'

const LAWN = 'site:"Plimmet Street House" area:"Front lawn"'
const MIX = `/mix product:"Tarnbrask 75 WDG" tank:"2 gal" sprayer:"Hand can" ${LAWN} weed:"yellow nutsedge" spots:"missed strip"`
const STRIP = ['Washed, all went well', 'A strip'] as const

/** Mixed, poured, and everything pressed that comes before the first short form. */
async function poured(typing: Typing): Promise<Said> {
  await typing(MIX, '> 1')
  let said = await typing('> 1')
  for (const label of STRIP) said = await press(typing, said, label)
  return said
}

async function logged(typing: Typing, own: Readonly<Record<string, string>> = {}): Promise<Said> {
  const look = await fillForms(typing, await poured(typing), own)
  return press(typing, look, 'Yes, record it')
}

const titles = (all: readonly Said[]) => all.map(({ title }) => title).join('\n')

const treatmentsOf = (room: Room, day = '2026-05-04') =>
  room.store(async (store) => {
    const [site] = (await store.sites.list()).filter(({ name }) => name === 'Plimmet Street House')
    const areas = await store.sites.listAreas(site?.id ?? 0)
    const front = areas.find(({ name }) => name === 'Front lawn')
    return (await store.treatments.list(front?.id ?? 0, day)).filter(({ treatedOn }) => treatedOn === day)
  })

describe('from a mix to a record', () => {
  test('product, rate, amount, site, sprayer and person are there already; only the rest is asked', async () => {
    const room = await openRoom()
    const first = await poured(room.as('bex'))
    expect(first.fields).toEqual(['started_at', 'mix_drawn', 'treated_area', 'area_basis', 'place_words'])
    expect(first.shown.answered.reply.form?.fields.find(({ name }) => name === 'mix_drawn')?.value).toBe(
      '2 gal',
    )
  })

  test('V45: the amounts follow from what was drawn, and stand there once more before it is kept', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const look = await fillForms(bex, await poured(bex), { mix_drawn: '1/2 gal' })
    expect(look.screen).toContain('1.6 g of Tarnbrask 75 WDG, meant at 0.113 oz wt/1000 ft²')
    expect(look.screen).toContain('0.5 gal of mix went on')
    const kept = await press(bex, look, 'Yes, record it')
    expect(kept.facts).toMatchObject({ record: 'R1', within_label: 'yes', late: false })
    expect(kept.screen).toContain('1.5 gal of mix 1 is left.')
  })

  test('it enters the history of its ground with the rate that really went on', async () => {
    const room = await openRoom()
    await logged(room.as('bex'), { mix_drawn: '1/2 gal', treated_area: '500 ft2' })
    const [treatment] = await treatmentsOf(room)
    expect(treatment?.details).toMatchObject({
      product: 'Tarnbrask 75 WDG',
      treatedFt2: '500',
      lineId: 'sedges',
    })
    expect(treatment?.details.rate).toMatch(/^0\.11\d* oz wt\/1000 ft2$/)
  })

  test('a complete one says so', async () => {
    const room = await openRoom()
    const kept = await logged(room.as('bex'))
    expect(kept.facts).toMatchObject({ complete: true, missing: '', within_label: 'yes' })
    expect(kept.outcome).toBe('answer')
  })

  test('one mix serves several sites until it is used up; they keep their order', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const first = await logged(bex, {
      mix_drawn: '1 gal',
      treated_area: '1000 ft2',
      leftover_fate: 'next site',
    })
    let said = await press(bex, first, 'Log the next site')
    for (const label of ['Washed, all went well', 'A strip', 'Other spots'])
      said = await press(bex, said, label)
    expect(said.shown.answered.reply.form?.fields.find(({ name }) => name === 'mix_drawn')?.value).toBe(
      '1 gal',
    )
    const second = await press(
      bex,
      await fillForms(bex, said, { mix_drawn: 'all', treated_area: '1000 ft2' }),
      'Yes, record it',
    )
    expect(second.screen).toContain('Mix 1 is used up.')
    const orders = await room.store(async (store) =>
      Promise.all([1, 2].map(async (number) => (await store.records.find(number))?.drawn)),
    )
    expect(orders).toEqual([
      { value: '1', unit: 'gal' },
      { value: '1', unit: 'gal' },
    ])
  })

  test('more than was made is never a negative leftover; it is said', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const look = await fillForms(bex, await poured(bex), { mix_drawn: '3 gal' })
    expect(look.screen).toContain('2 gal was mixed, and the records draw 1 gal more than that.')
  })

  test('not sprayed is a valid end, and nothing is logged from it any more', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const end = await press(bex, await bex(MIX, '> 1'), 'Not sprayed')
    expect(end.title).toBe('Mix 1 is noted as not sprayed')
    expect((await bex('/log mix:1')).outcome).toBe('refusal')
  })

  test('the weather comes from what was read for /conditions, with its hour', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await bex(
      '/conditions product:"Tarnbrask 75 WDG" wind:"6 mph" wind_from:NW temperature:"70 F" humidity:"55"',
    )
    await bex('+ 3 hours')
    const first = await poured(bex)
    const look = await fillForms(bex, first, { started_at: '11:30' })
    expect(look.screen).toContain('wind 6 mph from northwest, air 70 °F, and read at 09:00')
  })
})

describe('from nothing', () => {
  test('the label book fills in what it knows of the product; an ounce is taken by its form', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const said = await bex(
      `/log product:"tarnbrask 75 wdg" amount:"0.1 oz" rate:"0.113 oz/1000 ft2" ${LAWN} coverage:strip spots:"missed strip" ground:"885 ft2" start:7:30 weed:"yellow nutsedge" hands_washed:yes unusual:no sprayer:"Hand can"`,
    )
    const kept = await press(bex, await fillForms(bex, said), 'Yes, record it')
    expect(kept.facts).toMatchObject({ record: 'R1', complete: true, within_label: 'yes' })
    expect(kept.screen).toContain('0.1 oz wt of Tarnbrask 75 WDG, meant at 0.113 oz wt/1000 ft²')
  })

  test('every option that cannot be read is told at once, in a form that corrects it', async () => {
    const room = await openRoom()
    const said = await room.as('bex')(`/log ${LAWN} start:"soon" temperature:"warm"`)
    expect(said.outcome).toBe('question')
    expect(said.fields).toEqual(['started_at', 'temperature'])
    expect(said.lines.join('\n')).toMatch(/Started at: .*\nAir temperature at the start: /)
  })

  test('a name that is nearly right is asked for, and everything else is kept until then', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const near = await bex(`/log product:"Tarnbrask 75" ${LAWN} start:7:30 hands_washed:yes unusual:no`)
    expect(near.choices).toContain('Tarnbrask 75 WDG')
    const asked = await press(bex, near, 'Tarnbrask 75 WDG')
    expect(asked.title).toBe('How much of Front lawn was treated?')
    const form = await press(bex, asked, 'All of it')
    expect(form.fields).not.toContain('started_at')
  })

  test('a place that is no site of the book is typed', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const site = await bex('/log product:"Tarnbrask 75 WDG" hands_washed:yes unusual:no')
    const form = await press(bex, site, 'Somewhere else')
    expect(form.fields).toEqual(['place', 'place_words', 'site', 'customer_name'])
    const kept = await press(bex, await fillForms(bex, form), 'Yes, record it')
    expect(kept.facts).toMatchObject({ record: 'R1', missing: '' })
  })

  test('of many options that cannot be read only those are asked again; the others are kept', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const said = await bex(
      `/log ${LAWN} start:7:30 end:8:10 wind:"5 mph" temperature:"72 F" humidity:"lots" weed:"crabgrass"`,
    )
    expect(said.fields).toEqual(['humidity_percent'])
    const next = await bex('= humidity_percent:"60"')
    expect(next.title).toBe('Gloves off, hands washed?')
  })

  test('a product that is not in the book is recorded, and is not called within any label', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const said = await bex(
      `/log product:"Unbooked 1 L" amount:"1 fl oz" rate:"1 fl oz/1000 ft2" ${LAWN} coverage:strip spots:other ground:"1000 ft2" hands_washed:yes unusual:no`,
    )
    const kept = await press(bex, await fillForms(bex, said, { registration: '1234-56' }), 'Yes, record it')
    expect(kept.facts).toMatchObject({ within_label: 'unknown' })
  })
})

describe('what nobody knows', () => {
  test('stays empty, is shown as not recorded, and can be filled in before it is kept', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const look = await fillForms(bex, await poured(bex), { place_words: '?', customer_told: '' })
    expect(look.lines.find((line) => line.includes('missing'))).toBe(
      '2 missing: whether the customer was told and how far the spots reach.',
    )
    const again = await press(bex, look, 'Fill in what is missing')
    expect([...again.fields].sort()).toEqual(['customer_told', 'place_words'])
    const filled = await fillForms(bex, again)
    expect(filled.lines.some((line) => line.includes('missing'))).toBe(false)
  })

  test('what is kept incomplete says what it lacks', async () => {
    const room = await openRoom()
    const kept = await logged(room.as('bex'), { place_words: '?' })
    expect(kept.facts).toMatchObject({ complete: false, missing: 'extent' })
    expect(kept.outcome).toBe('heads-up')
  })
})

describe('an amount that rate and area do not ask for', () => {
  test('is pointed out, and a note on why answers it', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const look = await fillForms(bex, await poured(bex), { treated_area: '600 ft2' })
    expect(look.lines.some((line) => line.includes('rate and area ask for'))).toBe(true)
    await press(bex, await press(bex, look, 'Correct something'), 'Write a note')
    const again = await bex('= notes:"the last strip was sprayed thin"')
    expect((await press(bex, again, 'Yes, record it')).facts).toMatchObject({ complete: true })
  })
})

describe('nothing that was said is lost', () => {
  test('a log that was left is offered again, at the very question where it stood', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const form = await poured(bex)
    await press(bex, form, 'Not now')
    const offered = await bex('/log')
    expect(offered.choices[0]).toBe('Go on: Plimmet Street House')
    expect((await bex('> 1')).fields).toEqual(form.fields)
  })

  test('a second press on the same mix goes on with the log that was begun', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const form = await poured(bex)
    expect((await bex('/log mix:1')).fields).toEqual(form.fields)
    expect((await bex('/log')).choices.filter((one) => one.startsWith('Go on'))).toHaveLength(1)
  })

  test('one wrong field comes back with everything else as it was typed', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await poured(bex)
    const wrong = await bex(
      '= started_at:"late" mix_drawn:"1 gal" treated_area:"600 ft2" area_basis:measured place_words:"north strip"',
    )
    expect(wrong.title).toBe('Not saved yet: something needs another look')
    const fields = wrong.shown.answered.reply.form?.fields.map(({ name, value }) => [name, value])
    expect(fields).toEqual([
      ['started_at', 'late'],
      ['mix_drawn', '1 gal'],
      ['treated_area', '600 ft2'],
      ['area_basis', 'measured'],
      ['place_words', 'north strip'],
    ])
  })

  test('an unfinished log reminds its author the same day, and a finished one does not', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await poured(bex)
    expect(titles(await room.wait('+ 9 hours'))).toContain(
      'The log of Plimmet Street House is not finished yet.',
    )
    const other = await openRoom()
    await logged(other.as('bex'))
    expect(titles(await other.wait('+ 9 hours'))).not.toContain('is not finished yet')
  })

  test('a second press on “record it” makes no second record', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    const look = await fillForms(bex, await poured(bex))
    const at = look.choices.findIndex((one) => one.startsWith('Yes')) + 1
    await bex(`> ${at}`)
    expect(await room.store((store) => store.records.nextNumber())).toBe(2)
  })
})

describe('a log tells the truth', () => {
  test('more than the label allows is recorded, marked, and told to the leads', async () => {
    const room = await openRoom()
    const kept = await logged(room.as('bex'), { mix_drawn: '2 gal', treated_area: '600 ft2' })
    expect(kept.facts).toMatchObject({ within_label: 'no' })
    expect(titles(await room.wait('+ 1 minutes'))).toContain('is not within the label')
  })

  test('yesterday’s job is marked late where the state asks for the same day', async () => {
    const room = await openRoom()
    await room.as('odalys')('/setup crew state:OH')
    const bex = room.as('bex')
    const look = await fillForms(
      bex,
      await bex(
        `/log ${LAWN} date:"4/29" product:"Tarnbrask 75 WDG" coverage:strip spots:other ground:"885 ft2" amount:"2.8 g" rate:"0.113 oz wt/1000 ft2" hands_washed:yes unusual:no`,
      ),
    )
    expect((await press(bex, look, 'Yes, record it')).facts).toMatchObject({ record: 'R1' })
  })

  test('something unusual is an incident, told to the leads, with the emergency card one press away', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await bex(MIX, '> 1')
    const asked = await press(bex, await bex('> 1'), 'Washed, something happened')
    expect(asked.choices).toEqual(['Emergency'])
    const after = await bex('= words:"The hose broke and half a gallon ran into the mulch"')
    expect(after.title).toBe('How much of Front lawn was treated?')
    expect(titles(await room.wait('+ 1 minutes'))).toContain('The hose broke')
  })

  test('after words of exposure no log begins until it is dealt with', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await bex('/log notes:"some splashed in my eye"')
    expect((await bex('/log')).outcome).toBe('refusal')
  })

  test('two people log the same ground at the same moment: both are kept and the yearly total counts both', async () => {
    const room = await openRoom()
    const [bex, odalys] = [room.as('bex'), room.as('odalys')]
    const line = `/log product:"Tarnbrask 75 WDG" amount:"1.6 g" rate:"0.113 oz wt/1000 ft2" ${LAWN} coverage:strip spots:other ground:"500 ft2" weed:"yellow nutsedge" hands_washed:yes unusual:no`
    const looks = [
      await fillForms(bex, await poured(bex)),
      await fillForms(odalys, await odalys(line)),
    ] as const
    const kept = await Promise.all([press(bex, looks[0], 'Yes'), press(odalys, looks[1], 'Yes')])
    expect(kept.map(({ facts }) => facts.record).sort()).toEqual(['R1', 'R2'])
    expect(await treatmentsOf(room)).toHaveLength(2)
  })
})

describe('an amendment', () => {
  test('keeps what stood, who, when and why; the chain holds', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await logged(bex, { mix_drawn: '1/2 gal' })
    const what = await bex('/record amend record:R1')
    const form = await press(bex, what, 'The weather there')
    expect(form.fields).toContain('why')
    const done = await bex('= wind_speed:"9 mph" wind_from:NW temperature:"72 F" why:"read the meter again"')
    expect(done.title).toBe('R1 is amended')
    expect(done.lines[0]).toContain('Wind speed: ')
    const links = await room.store((store) => store.records.pageLinks(0, 100))
    expect(links.map(({ entry }) => entry.kind)).toEqual(['record', 'amendment'])
    expect(verifyChain(links)).toEqual([])
    const labels = what.choices
    expect(new Set(labels).size).toBe(labels.length)
  })

  test('without a reason, or with nothing changed, is none', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await logged(bex)
    const form = await press(bex, await bex('/record amend record:R1'), 'When')
    const same = form.shown.answered.reply.form?.fields
      .map(({ name, value }) => `${name}:"${value ?? ''}"`)
      .join(' ')
    expect((await bex(`= ${same?.replace('why:""', 'why:"no change"')}`)).outcome).toBe('refusal')
  })

  test('of the treated area changes what counts on that ground', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await logged(bex, { mix_drawn: '1/2 gal', treated_area: '500 ft2' })
    await press(bex, await bex('/record amend record:R1'), 'Where')
    await bex('= place_words:"north strip" treated_area:"400 ft2" why:"measured again"')
    expect((await treatmentsOf(room)).map(({ details }) => details.treatedFt2)).toEqual(['400'])
  })

  test('of what was drawn from the mix changes the amounts, and what is left of it', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await logged(bex)
    await press(bex, await bex('/record amend record:R1'), 'The tank')
    const done = await bex(
      '= method:"hand sprayer" mix_drawn:"1/4 gal" carrier:"water" recipe:"6.4 g in 2 gal" why:"half of it only"',
    )
    expect(done.title).toBe('R1 is amended')
    const [row] = await room.store((store) => store.records.listNewest({}, 1))
    expect(row?.drawn).toEqual({ value: '0.25', unit: 'gal' })
    expect((await treatmentsOf(room)).map(({ details }) => details.amount)).toEqual([
      { value: '0.8', unit: 'g' },
    ])
  })

  test('that voids takes it out of the history of its ground, and the record stays', async () => {
    const room = await openRoom()
    const bex = room.as('bex')
    await logged(bex)
    await press(bex, await bex('/record amend record:1'), 'Void R1')
    const done = await bex('= why:"logged twice"')
    expect(done.title).toBe('R1 is void')
    expect(await treatmentsOf(room)).toEqual([])
    expect((await bex('/record amend record:1')).outcome).toBe('refusal')
  })

  test('is for its author and for leads', async () => {
    const room = await openRoom()
    await logged(room.as('bex'))
    const others = (await room.store((store) => store.people.list())).filter(
      ({ leads, name }) => !leads && !name.startsWith('Bex'),
    )
    const other = room.as(others[0]?.name ?? '')
    expect((await other('/record amend record:R1')).outcome).toBe('refusal')
    expect((await room.as('odalys')('/record amend record:R1')).outcome).toBe('question')
  })
})

describe('every state’s table', () => {
  test.each([...loadStateRules().states.keys(), 'WY'])(
    '%s: what it asks can be said in short forms, and the record is then complete',
    async (state) => {
      const room = await openRoom()
      await room.as('odalys')(`/setup crew state:${state}`)
      // Its address would tell another state.
      await room.store(async (store) => {
        const site = (await store.sites.list()).find(({ name }) => name === 'Plimmet Street House')
        await store.sites.update(site?.id ?? 0, { address: `12 Plimmet Street, Fallowquay, ${state} 00012` })
      })
      const bex = room.as('bex')
      const address = { place: `12 Plimmet Street, Fallowquay, ${state} 00012` }
      const look = await fillForms(bex, await poured(bex), { ...address, mix_drawn: '1/2 gal' })
      const kept = await press(bex, look, 'Yes, record it')
      expect(kept.facts, look.screen.join('\n')).toMatchObject({ complete: true, missing: '' })
    },
  )
})
