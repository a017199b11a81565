import { expect, test } from 'vitest'
import { eachEngine } from '#tests/helpers/engines.ts'
import { buttonIn, isPrivate, textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, type OnDiscord, startCrew } from './crew.ts'
import { HAND_CAN, SITE } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const mix = {
  name: 'mix',
  ...crew,
  options: { rate: '1 fl oz/1000 ft2', tank: '2 gal', output: '1 gal/1000 ft2' },
}
const OVER = 'It is dealt with'

const open = (on: OnDiscord) =>
  on.look(async (store) => {
    const person = (await store.people.list()).find(({ name }) => name === 'demo.crew')
    return (await store.incidents.listOpen(person?.id ?? 0)).map(({ words }) => words)
  })

/** Whom to call stands before everything else (numbers: 911; Poison Help, America's Poison Centers). */
function expectCard(text: string): void {
  expect(text).toContain('# Emergency')
  expect(text.indexOf('911')).toBeGreaterThan(-1)
  expect(text.indexOf('1-800-222-1222')).toBeGreaterThan(text.indexOf('911'))
  expect(text.indexOf('rinse gently')).toBeGreaterThan(text.indexOf('1-800-222-1222'))
}

eachEngine('emergencies on Discord', (place) => {
  test('/emergency asks nothing, names the last product and where they are, and stops nothing', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const asked = { product: 'Dunvarrow 2 SC', sprayer: HAND_CAN, tank: '1/2', site: SITE, area: 'front' }
    const rate = { ...asked, line: 'young-crab', rate: '0.25 fl oz/1000 ft2' }
    await platform.slash({ name: 'mix', ...crew, options: rate }).message()
    const card = await platform.slash({ name: 'emergency', ...crew }).message()
    expect(isPrivate(card)).toBe(false)
    expectCard(textOf(card))
    expect(textOf(card)).toContain('Last mixed: Dunvarrow 2 SC')
    expect(textOf(card)).toContain('You are at: 5 Invented Row, Noplace NC 27000')
    expect(await open(on)).toEqual([])
    expect(textOf(await platform.slash(mix).message())).toContain('of the product')
    expectQuiet(on)
  })

  test('words of exposure in an option stop the mixing until somebody presses', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const said = { ...mix, options: { ...mix.options, weed: 'got it in my eye' } }
    const card = await platform.slash(said).message()
    expectCard(textOf(card))
    expect(textOf(card)).toContain('You wrote “got it in my eye”.')
    expect(await open(on)).toEqual(['got it in my eye'])
    expect(textOf(await platform.slash(mix).message())).toContain('Mixing and new logs wait')
    // Whoever helps may press it: the person has other things to do.
    const over = platform.press({ message: card, customId: buttonIn(card, OVER), user: 'demo.crew2' })
    expect(textOf(await over.message())).toContain('Noted: demo.crew2 says it is dealt with')
    over.sendAgain()
    expect(await open(on)).toEqual([])
    expect(textOf(await platform.slash(mix).message())).toContain('of the product')
    expectQuiet(on)
  })

  test('words of exposure in a field of a form bring the card, after a restart too', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const asked = platform.slash({
      ...mix,
      options: { rate: '1 fl oz/1000 ft2', tank: '2 gal', sprayer: HAND_CAN },
      user: 'demo.lead',
    })
    await asked.modal()
    await on.restart()
    const sent = platform.submitModal({ from: asked, fields: { 't.output': 'sprayed my face, cant see' } })
    const card = await sent.message()
    expectCard(textOf(card))
    const text = textOf(await platform.slash({ ...mix, user: 'demo.lead' }).message())
    expect(text).toContain('Mixing and new logs wait')
    // Only that person's mixing stops.
    expect(textOf(await platform.slash(mix).message())).toContain('of the product')
    await platform.press({ message: card, customId: buttonIn(card, OVER), user: 'demo.lead' }).message()
    expect(textOf(await platform.slash({ ...mix, user: 'demo.lead' }).message())).toContain('of the product')
    expectQuiet(on)
  })

  test('in a direct message the card is the person’s own, and so is what it stops', async () => {
    const on = await startCrew(place)
    const { platform } = on
    await platform.slash({ name: 'setup me', ...crew }).message()
    const options = { ...mix.options, weed: 'me cayó en el ojo' }
    const card = await platform.slash({ name: 'mix', user: 'demo.crew', dm: true, options }).message()
    expectCard(textOf(card))
    expect(textOf(await platform.slash(mix).message())).toContain('Mixing and new logs wait')
    await platform.press({ message: card, customId: buttonIn(card, OVER) }).message()
    expect(await open(on)).toEqual([])
    expectQuiet(on)
  })

  test('grass that looks sick is no emergency', async () => {
    const on = await startCrew(place)
    const options = { ...mix.options, weed: 'grass looks sick, leaf burn' }
    const text = textOf(await on.platform.slash({ ...mix, options }).message())
    expect(text).not.toContain('# Emergency')
    expect(await open(on)).toEqual([])
  })
})
