import { InteractionResponseType as Kind } from 'discord-api-types/v10'
import { expect, test } from 'vitest'
import type { DiscordStandIn } from '#tests/discord-loopback/index.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { buttonIn, buttonsOf, isPrivate, textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, type OnDiscord, soon, startCrew } from './crew.ts'
import { HAND_CAN, SITE } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
/** In summer two of its rate lines fit, and each is a span: two questions. */
const dunvarrow = { product: 'Dunvarrow 2 SC', sprayer: HAND_CAN, tank: '1/2', season: 'summer' }
const POUR = `Poured into ${HAND_CAN}`

const contentsOf = (on: OnDiscord) =>
  on.look(async (store) => {
    const [sprayer] = await store.sprayers.list()
    return (await store.sprayers.listEvents(sprayer?.id ?? 0, 10)).map(({ kind }) => kind)
  })

async function suggestions(platform: DiscordStandIn, focused: string, options: Record<string, string>) {
  const typed = platform.autocomplete({ name: 'mix', ...crew, focused, options })
  const { type, data } = await typed.firstResponse()
  expect(type).toBe(Kind.ApplicationCommandAutocompleteResult)
  return (data.choices as { value: string }[]).map(({ value }) => value)
}

/** The answer of a mix whose site has one area left to ask for and one rate to choose. */
async function mixed(platform: DiscordStandIn) {
  const first = platform.slash({ name: 'mix', ...crew, options: { ...dunvarrow, site: SITE, area: 'front' } })
  let message = await first.message()
  for (const label of ['Young crabgrass', 'Highest'])
    message = await platform.press({ message, customId: buttonLike(message, label) }).message()
  return { first, message }
}

function buttonLike(message: { components?: unknown }, beginning: string): string {
  const found = buttonsOf(message).find(({ label }) => label.startsWith(beginning))
  if (found === undefined)
    throw new Error(
      `No button "${beginning}…" in: ${textOf(message)} ${buttonsOf(message).map((b) => b.label)}`,
    )
  return found.customId
}

eachEngine('mixing on Discord', (place) => {
  test('names complete while they are typed, with slips, and areas of the chosen site only', async () => {
    const on = await startCrew(place)
    const { platform } = on
    expect((await suggestions(platform, 'product', { product: 'dunvarow' }))[0]).toBe('Dunvarrow 2 SC')
    expect(await suggestions(platform, 'sprayer', { sprayer: 'hnd' })).toEqual([HAND_CAN])
    expect(await suggestions(platform, 'site', { site: '' })).toEqual([SITE])
    expect(await suggestions(platform, 'area', { site: SITE, area: '' })).toEqual(['front', 'field'])
    expect(await on.answers()).toBe(0)
    expectQuiet(on)
  })

  test('which area, which line and which rate are buttons; what was poured is asked about next time', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const first = platform.slash({ name: 'mix', ...crew, options: { ...dunvarrow, site: SITE } })
    let message = await first.message()
    expect(textOf(message)).toContain(`Which area of ${SITE}?`)
    message = await platform.press({ message, customId: buttonIn(message, 'front') }).message()
    expect(textOf(message)).toContain('Dunvarrow 2 SC has several rates. Which one fits?')
    message = await platform.press({ message, customId: buttonLike(message, 'Young crabgrass') }).message()
    expect(textOf(message)).toContain('0.25 fl oz/1000 ft² to 0.37 fl oz/1000 ft²')
    const last = platform.press({ message, customId: buttonLike(message, 'Highest') })
    expect((await last.firstResponse()).type).toBe(Kind.UpdateMessage)
    message = await last.message()
    // 1 gal at 1 gal/1000 ft² takes 0.37 fl oz = 10.94 mL; the cylinder has half milliliters, and 11 would be above.
    expect(textOf(message)).toContain('# 10.5 mL of Dunvarrow 2 SC (0.355 fl oz)')
    expect(textOf(message)).toContain('fill to the 1 gal mark')
    expect(isPrivate(message)).toBe(false)
    // One question after another was replaced by the next: the channel shows one message.
    expect(platform.messagesIn('field')).toHaveLength(1)

    const poured = await platform.press({ message, customId: buttonIn(message, POUR) }).message()
    expect(textOf(poured)).toContain(`Noted: 1 gal of Dunvarrow 2 SC in ${HAND_CAN}`)
    await soon(() => expect(platform.messagesIn('field')[0]?.edited_timestamp).not.toBeNull())
    expect(await contentsOf(on)).toEqual(['poured', 'cleaned'])

    let next = await platform
      .slash({
        name: 'mix',
        ...crew,
        options: { ...dunvarrow, site: SITE, area: 'front', line: 'young-crab' },
      })
      .message()
    expect(textOf(next)).toContain(`demo.crew poured Dunvarrow 2 SC into ${HAND_CAN}`)
    next = await platform
      .press({ message: next, customId: buttonIn(next, 'Empty, rinsed three times') })
      .message()
    expect(textOf(next)).toContain('Which rate?')
    expect(await contentsOf(on)).toEqual(['cleaned', 'poured', 'cleaned'])
    expectQuiet(on)
  })

  test('what is left in the tank is typed into a form of the question', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const { message } = await mixed(platform)
    await platform.press({ message, customId: buttonIn(message, POUR) }).message()
    const again = { ...dunvarrow, site: SITE, area: 'front', line: 'young-crab', rate: '0.37 fl oz/1000 ft2' }
    const question = await platform
      .slash({ name: 'mix', ...crew, options: { ...again, tank: '2 gal' } })
      .message()
    const form = platform.press({ message: question, customId: buttonIn(question, 'Some is left') })
    await form.modal()
    const sent = platform.submitModal({ from: form, fields: { 't.in_tank': '0.5 gal' } })
    // 1.5 gal on top of 0.5 gal of the same mix: 1.5 times 10.94 mL is 16.4, and 16.5 would be above.
    expect(textOf(await sent.message())).toContain('# 16 mL of Dunvarrow 2 SC')
    expectQuiet(on)
  })

  test('a rate off a label in hand is answered, and says that no entry was checked', async () => {
    const on = await startCrew(place)
    // Common practice, no source: 0.113 oz per 1,000 ft² at one gallon per 1,000 ft² is 0.226 oz for two gallons.
    const options = { rate: '0.113 oz wt/1000 ft2', tank: '2 gal', output: '1 gal/1000 ft2' }
    const text = textOf(await on.platform.slash({ name: 'mix', ...crew, options }).message())
    expect(text).toMatch(/6\.4 g of the product \(0\.225\d* oz/)
    expect(text).toContain('No label entry was checked')
    expectQuiet(on)
  })

  test('who has not measured an output types two numbers, which are kept', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const options = { rate: '1 fl oz/1000 ft2', tank: '2 gal', sprayer: HAND_CAN }
    const form = platform.slash({ name: 'mix', user: 'demo.lead', channel: 'field', options })
    expect(textOf(await form.modal())).toContain(`No output measured for demo.lead with ${HAND_CAN}`)
    const wrong = await platform
      .submitModal({ from: form, fields: { 't.test_ground': '250 ft2', 't.test_used': 'half' } })
      .message()
    const again = platform.press({ message: wrong, customId: buttonIn(wrong, 'Correct it') })
    expect(JSON.stringify(await again.modal())).toContain('"value":"250 ft2"')
    const right = platform.submitModal({
      from: again,
      fields: { 't.test_ground': '250 ft2', 't.test_used': '0.5 gal' },
    })
    // Half a gallon on 250 ft² is 2 gal per 1,000 ft²: two gallons cover 1,000 ft².
    expect(textOf(await right.message())).toContain('Covers 1,000 ft² at 2 gal/1000 ft²')
    const kept = await on.look(async (store) => {
      const [sprayer] = await store.sprayers.list()
      const lead = (await store.people.list()).find(({ name }) => name === 'demo.lead')
      return sprayer && lead && (await store.sprayers.findCalibration(sprayer, lead.id))?.output
    })
    expect(kept).toEqual({ value: '2', unit: 'gal/1000 ft2' })
    expectQuiet(on)
  })

  test('a grass that the label forbids is refused with the label’s line', async () => {
    const on = await startCrew(place)
    const options = { ...dunvarrow, site: SITE, area: 'field' }
    const message = await on.platform.slash({ name: 'mix', ...crew, options }).message()
    expect(textOf(message)).toContain('**✕ No')
    expect(textOf(message)).toContain('Severe injury to bermudagrass: do not use.')
    expect(buttonsOf(message).map(({ label }) => label)).not.toContain(POUR)
    expectQuiet(on)
  })

  test('whatever comes twice is answered once and written once', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const { first, message } = await mixed(platform)
    const press = platform.press({ message, customId: buttonIn(message, POUR) })
    await press.message()
    const before = await on.answers()
    for (const fired of [first, press]) fired.sendAgain()
    await soon(() => expect(on.lines.filter((line) => line.message === 'came twice')).toHaveLength(2))
    // After a restart nobody remembers them: what is kept answers, and the platform takes no second answer.
    await on.restart()
    for (const fired of [first, press]) {
      fired.sendAgain()
      expect((await fired.refusal()).error).toMatchObject({ code: 40060 })
    }
    expect(await on.answers()).toBe(before)
    expect(await contentsOf(on)).toEqual(['poured', 'cleaned'])
    expectQuiet(on)
  })

  test('two presses at once pour once, and the second sees what the first got', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const { message } = await mixed(platform)
    const customId = buttonIn(message, POUR)
    const both = [platform.press({ message, customId }), platform.press({ message, customId })]
    const seen = await Promise.all(both.map((one) => one.message()))
    expect(seen.map(textOf).every((text) => text.includes('Noted: 1 gal'))).toBe(true)
    expect(seen.filter(isPrivate)).toHaveLength(1)
    expect(await contentsOf(on)).toEqual(['poured', 'cleaned'])
    expectQuiet(on)
  })

  test('a shared answer says whose its buttons are, and holds to it', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const { message } = await mixed(platform)
    expect(textOf(message)).toContain('The buttons are for demo.crew.')
    const other = await platform
      .press({ message, customId: buttonIn(message, POUR), user: 'demo.crew2' })
      .message()
    expect(isPrivate(other)).toBe(true)
    expect(textOf(other)).toContain('Solo demo.crew puede presionar esto.')
    expect(await contentsOf(on)).toEqual(['cleaned'])
    expect(textOf(await platform.press({ message, customId: buttonIn(message, POUR) }).message())).toContain(
      'Noted',
    )
    expectQuiet(on)
  })

  test('an answer shared in the crew’s language is read in one’s own with one press', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const options = { rate: '1 fl oz/1000 ft2', tank: '2 gal', output: '1 gal/1000 ft2' }
    const shared = await platform
      .slash({ name: 'mix', user: 'demo.crew2', channel: 'field', options })
      .message()
    expect(textOf(shared)).toContain('Half the water, then the product')
    const before = await on.answers()
    const own = await platform.press({ message: shared, customId: buttonIn(shared, 'En español') }).message()
    expect(isPrivate(own)).toBe(true)
    expect(textOf(own)).toContain('La mitad del agua')
    expect(await on.answers()).toBe(before)
    expectQuiet(on)
  })

  test('the working is shown to whoever wants to see it, and to nobody else', async () => {
    const on = await startCrew(place)
    const { message } = await mixed(on.platform)
    const shown = await on.platform
      .press({ message, customId: buttonIn(message, 'Show the working'), user: 'demo.lead' })
      .message()
    expect(isPrivate(shown)).toBe(true)
    expect(textOf(shown)).toContain('0.37 fl oz')
    expectQuiet(on)
  })

  test('a truck card is waited for, and comes with its picture', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const card = { name: 'card', ...crew, options: { sprayer: HAND_CAN } }
    const drawn = platform.slash(card)
    expect((await drawn.firstResponse()).type).toBe(Kind.DeferredChannelMessageWithSource)
    expect((await drawn.edit()).files.map(({ contentType }) => contentType)).toContain('image/png')
    expect(textOf(await drawn.message())).toContain(HAND_CAN)
    expectQuiet(on)
  })

  test('a question outlives a restart, and so does its form', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const options = { ...dunvarrow, site: SITE }
    let message = await platform.slash({ name: 'mix', ...crew, options }).message()
    await on.restart()
    message = await platform.press({ message, customId: buttonIn(message, 'front') }).message()
    const form = platform.slash({
      name: 'mix',
      user: 'demo.lead',
      channel: 'office',
      options: { rate: '1 fl oz/1000 ft2', tank: '2 gal', sprayer: HAND_CAN },
    })
    await form.modal()
    await on.restart()
    const sent = platform.submitModal({ from: form, fields: { 't.output': '1 gal/1000 ft2' } })
    expect(textOf(await sent.message())).toContain('Covers 2,000 ft²')
    message = await platform.press({ message, customId: buttonLike(message, 'Young crabgrass') }).message()
    expect(textOf(message)).toContain('Which rate?')
    expect(
      platform.requestsTo({ method: 'PUT', route: '/applications/{application_id}/commands' }),
    ).toHaveLength(1)
    expectQuiet(on)
  })
})
