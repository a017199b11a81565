import { expect, test } from 'vitest'
import type { Fired } from '#tests/discord-loopback/index.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { buttonIn, isPrivate, textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, type OnDiscord, startCrew } from './crew.ts'
import { entryOf } from './seed.ts'

const lead = { user: 'demo.lead', channel: 'office' }
const crew = { user: 'demo.crew', channel: 'field' }

/** An invented product, as its fields are typed from the label. */
const PRODUCT = {
  't.name': 'Bramwick 10 SC',
  'c.formulation': 'SC',
  't.registration': '9999999-77',
  't.actives': 'bramwicol 1 lb ai/gal, group 97',
  'c.signal': 'CAUTION',
}
const RATE = {
  't.line': 'Young crabgrass in tall fescue: 0.5 to 1 fl oz per 1,000 sq ft.',
  't.turfs': 'tall fescue',
  't.weeds': '',
  't.rates': '0.5 to 1 fl oz/1000 ft2',
  't.limits': '3 fl oz/1000 ft2 a year; 28 days',
}
const SAFETY = {
  't.mixing': 'Long sleeves\nGloves',
  't.spraying': 'Long sleeves',
  't.keep_off': 'Until dry',
  // As labels print it: copied first aid is no word of alarm.
  't.first_aid':
    'If in eyes: hold eye open and rinse slowly for 15 to 20 minutes. If swallowed: call a poison center.',
  't.label': 'A-12 2026-01-15',
}

const revisions = (on: OnDiscord) =>
  on.look(async (store) => {
    const entry = await store.labels.findByName(PRODUCT['t.name'])
    return entry === undefined ? [] : (await store.labels.listRevisions(entry.id)).map(({ status }) => status)
  })

/** Presses the button that opens a message's form. */
async function open(on: OnDiscord, from: Fired, label: string): Promise<Fired> {
  const message = await from.message()
  const pressed = on.platform.press({ message, customId: buttonIn(message, label) })
  await pressed.modal()
  return pressed
}

/** Everything of the three steps, one rate line. */
async function addProduct(on: OnDiscord): Promise<Fired> {
  const { platform } = on
  const first = platform.slash({ name: 'label add', ...lead })
  await first.modal()
  const product = platform.submitModal({ from: first, fields: PRODUCT })
  const rate = platform.submitModal({ from: await open(on, product, 'Fill it in'), fields: RATE })
  const message = await rate.message()
  expect(textOf(message)).toContain('One rate line so far. Another one?')
  const enough = platform.press({ message, customId: buttonIn(message, 'No, go on') })
  await enough.modal()
  return platform.submitModal({ from: enough, fields: SAFETY })
}

const mix = {
  name: 'mix',
  ...crew,
  options: { product: PRODUCT['t.name'], tank: '2 gal', output: '1 gal/1000 ft2' },
}

eachEngine('the label book on Discord', (place) => {
  test('three forms, one of them wrong at first, and another rate line', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const first = platform.slash({ name: 'label add', ...lead })
    expect(await first.modal()).toMatchObject({ title: 'Product (1 of 3)' })
    const wrong = platform.submitModal({ from: first, fields: { ...PRODUCT, 't.actives': 'some of it' } })
    const message = await wrong.message()
    expect(isPrivate(message)).toBe(true)
    expect(textOf(message)).toContain('Cannot read the active ingredient “some of it”')
    const again = await open(on, wrong, 'Correct it')
    const shown = JSON.stringify(again.response?.data)
    for (const kept of ['Bramwick 10 SC', '9999999-77', 'some of it']) expect(shown).toContain(kept)
    // Only what was wrong is typed again: the rest stands in the fields.
    const product = platform.submitModal({ from: again, fields: { 't.actives': PRODUCT['t.actives'] } })
    const rate = platform.submitModal({ from: await open(on, product, 'Fill it in'), fields: RATE })
    let asked = await rate.message()
    const more = platform.press({ message: asked, customId: buttonIn(asked, 'Another rate line') })
    const second = {
      ...RATE,
      't.line': 'Grown crabgrass: 1 fl oz per 1,000 sq ft.',
      't.rates': '1 fl oz/1000 ft2',
    }
    await more.modal()
    asked = await platform.submitModal({ from: more, fields: { ...second, 't.limits': '' } }).message()
    expect(textOf(asked)).toContain('2 rate lines so far. Another one?')
    expect(await revisions(on)).toEqual([])
    // All of it was one private conversation in one message.
    expect(platform.messagesIn('office')).toHaveLength(1)
    expectQuiet(on)
  })

  test('what a lead has typed goes live when a second person has retyped it from the label', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const kept = await (await addProduct(on)).message()
    expect(textOf(kept)).toContain('Bramwick 10 SC is kept and waits for a second person')
    expect(textOf(await platform.slash(mix).message())).toContain(
      'waits for a second person to retype its rate',
    )

    const options = { product: PRODUCT['t.name'] }
    const same = await platform.slash({ name: 'label confirm', ...lead, options }).message()
    expect(textOf(same)).toContain('**‖ Hold**')

    const confirm = platform.slash({ name: 'label confirm', ...crew, options })
    const form = await confirm.modal()
    expect(JSON.stringify(form)).not.toContain('0.5 fl oz')
    const typed = { 't.f1': '0.5 fl oz/1000 ft2', 't.f2': '10 fl oz/1000 ft2', 't.f3': '3 fl oz/1000 ft2' }
    const wrong = platform.submitModal({ from: confirm, fields: typed })
    expect(textOf(await wrong.message())).toContain('Rate 1, highest')
    expect(await revisions(on)).toEqual(['waiting'])
    const again = await open(on, wrong, 'Correct it')
    const right = platform.submitModal({ from: again, fields: { 't.f1': '1 fl oz/1000 ft2' } })
    expect(textOf(await right.message())).toContain('Bramwick 10 SC is in force')
    right.sendAgain()
    expect(await revisions(on)).toEqual(['live'])
    expect(textOf(await platform.slash(mix).message())).toContain(
      'Which rate? The label gives 0.5 fl oz/1000 ft²',
    )
    expectQuiet(on)
  })

  test('a draft outlives a restart between its steps', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const first = platform.slash({ name: 'label add', ...lead })
    await first.modal()
    const product = platform.submitModal({ from: first, fields: PRODUCT })
    await product.message()
    await on.restart()
    const rate = platform.submitModal({ from: await open(on, product, 'Fill it in'), fields: RATE })
    expect(textOf(await rate.message())).toContain('One rate line so far')
    expectQuiet(on)
  })

  test('a file of entries is taken whole, or not at all and with every problem named', async () => {
    const on = await startCrew(place, { bare: true })
    const { platform } = on
    const good = [entryOf('Wraxmoor 20 ME'), entryOf('Gorseholt 25 L')]
    const bad = [good[0], { ...good[1], signalWord: 'LOUD' }]
    const file = (entries: unknown) => ({
      name: 'book.json',
      bytes: JSON.stringify({ entries }),
      contentType: 'application/json; charset=utf-8',
    })
    const add = (entries: unknown) =>
      platform.slash({ name: 'label add', ...lead, options: { file: file(entries) } }).message()
    const refused = textOf(await add(bad))
    expect(refused).toContain('Nothing was kept: one problem')
    expect(refused).toContain('Row 2 (Gorseholt 25 L), signalWord')
    expect(await on.look((store) => store.labels.names())).toEqual([])

    const kept = textOf(await add(good))
    expect(kept).toContain('2 entries kept')
    expect(kept).toContain('Wraxmoor 20 ME: waits for a second person')
    expect(await on.look(async (store) => (await store.labels.list()).length)).toBe(2)
    const noJson = { name: 'book.json', bytes: 'no json', contentType: 'application/json' }
    const wrong = platform.slash({ name: 'label add', ...lead, options: { file: noJson } })
    expect(textOf(await wrong.message())).toContain('Nothing was kept')
    expectQuiet(on)
  })

  test('only a lead adds to it', async () => {
    const on = await startCrew(place)
    const message = await on.platform.slash({ name: 'label add', ...crew }).message()
    expect(textOf(message)).toContain('Only a lead may do this')
    expect(isPrivate(message)).toBe(true)
    expectQuiet(on)
  })
})
