import { expect, test } from 'vitest'
import { everydayPlace } from '#tests/helpers/engines.ts'
import { buttonIn, textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, soon, startCrew } from './crew.ts'
import { HAND_CAN } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const options = { rate: '1 fl oz/1000 ft2', tank: '2 gal', sprayer: HAND_CAN }
const POUR = `Poured into ${HAND_CAN}`
const CALLBACK = { method: 'POST', route: /callback$/ }

const place = everydayPlace()

test('a press while the line is down arrives when it is back, and pours once', async () => {
  const on = await startCrew(place)
  const { platform } = on
  const message = await platform.slash({ name: 'mix', ...crew, options }).message()
  platform.dropSocket()
  await soon(() => expect(on.discord.health().shards[0]?.isReady).toBe(false))
  const press = platform.press({ message, customId: buttonIn(message, POUR) })
  expect(press.delivered).toBe(0)
  expect(textOf(await press.message())).toContain('Noted')
  expect(platform.counts).toMatchObject({ identifies: 1, resumes: 1 })
  await soon(() => expect(on.discord.health()).toMatchObject({ ok: true }))
  // A resume may bring what was seen before.
  platform.gateway.replayFrom(0)
  await soon(() => expect(on.lines.filter((line) => line.message === 'came twice')).not.toEqual([]))
  expect(await on.answers()).toBe(2)
  expectQuiet(on)
})

test('told to wait, an answer still comes within its time', async () => {
  const on = await startCrew(place)
  const { platform } = on
  platform.faults.tooMany(CALLBACK, { retryAfterS: 0.4 })
  const asked = platform.slash({ name: 'mix', ...crew, options })
  expect((await asked.firstResponse()).afterMs).toBeLessThan(3000)
  expect(await on.answers()).toBe(1)
  expect(platform.requestsTo(CALLBACK).map(({ status }) => status)).toEqual([429, 204])
  expectQuiet(on)
})

test('an answer whose connection is cut is sent again, and written once', async () => {
  const on = await startCrew(place)
  const { platform } = on
  platform.faults.drop(CALLBACK, { when: 'before' })
  const asked = platform.slash({ name: 'mix', ...crew, options })
  expect(textOf(await asked.message())).toContain('of the product')
  expect(await on.answers()).toBe(1)
  expectQuiet(on)
})

test('an answer that came too late is kept: asked again, nothing is poured twice', async () => {
  const on = await startCrew(place)
  const { platform } = on
  const message = await platform.slash({ name: 'mix', ...crew, options }).message()
  platform.faults.delay(CALLBACK, 300, { when: 'before' })
  const press = platform.press({ message, customId: buttonIn(message, POUR) })
  // Written, but the platform has given the person up before the answer reaches it.
  await soon(async () => expect(await on.answers()).toBe(2))
  platform.clock.advance(3500)
  expect((await press.refusal()).error).toMatchObject({ code: 10062 })
  const again = platform.press({ message, customId: buttonIn(message, POUR) })
  expect(textOf(await again.message())).toContain('Noted')
  expect(await on.answers()).toBe(2)
  expectQuiet(on)
})

test('a press that is three seconds old before it arrives writes nothing', async () => {
  const on = await startCrew(place)
  const { platform } = on
  const message = await platform.slash({ name: 'mix', ...crew, options }).message()
  platform.dropSocket()
  await soon(() => expect(on.discord.health().shards[0]?.isReady).toBe(false))
  const press = platform.press({ message, customId: buttonIn(message, POUR) })
  platform.clock.advance(3500)
  expect((await press.refusal()).error).toMatchObject({ code: 10062 })
  expect(await on.answers()).toBe(1)
  expectQuiet(on)
})
