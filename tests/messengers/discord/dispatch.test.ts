import { InteractionResponseType as Kind } from 'discord.js'
import { expect, test, vi } from 'vitest'
import { startRig } from './rig.ts'
import { buttonIn, buttonsOf, isPrivate, textOf } from './seen.ts'

const crew = { user: 'demo.crew', channel: 'field' }

test('a dispatch that comes twice is answered and written once', async () => {
  const { platform, turns, lines } = await startRig()
  const fired = platform.slash({ name: 'echo', ...crew, options: { words: 'x' } })
  fired.sendAgain()
  await fired.message()
  fired.sendAgain()
  await vi.waitFor(() => expect(lines.filter((line) => line.message === 'came twice')).toHaveLength(2))
  expect(await turns()).toBe(1)
  expect(fired.refused).toEqual([])
  expect(platform.messagesIn('field')).toHaveLength(1)
  expect(lines.filter((line) => line.level === 'error')).toEqual([])
})

test('a dispatch that another process has answered is dropped quietly, and written once', async () => {
  const rig = await startRig()
  const fired = rig.platform.slash({ name: 'echo', ...crew, options: { words: 'x' } })
  await fired.message()
  await rig.restart()
  fired.sendAgain()
  expect(await fired.refusal()).toMatchObject({ error: { code: 40060 } })
  expect(await rig.turns()).toBe(1)
  expect(rig.lines.filter((line) => line.level === 'error' || line.level === 'warn')).toEqual([])
})

test('buttons still work after a restart', async () => {
  const rig = await startRig()
  const question = await rig.platform.slash({ name: 'ask', ...crew }).message()
  await rig.restart()
  const answer = await rig.platform
    .press({ message: question, customId: buttonIn(question, 'One') })
    .message()
  expect(textOf(answer)).toContain('# Chosen: one')
  rig.platform.assertClean()
})

test('two who press one button at once: one answer, and the second sees what the first got', async () => {
  const { platform, turns } = await startRig()
  const question = await platform.slash({ name: 'ask', ...crew }).message()
  const answer = await platform.press({ message: question, customId: buttonIn(question, 'One') }).message()
  const customId = buttonIn(answer, 'Poured')
  const [first, second] = [
    platform.press({ message: answer, customId }),
    platform.press({ message: answer, customId }),
  ]
  const [one, other] = [await first.message(), await second.message()]
  expect(textOf(one)).toContain('It is poured')
  expect(textOf(other)).toContain('It is poured')
  expect([isPrivate(one), isPrivate(other)]).toEqual([false, true])
  expect(await turns()).toBe(3)
  platform.assertClean()
})

test('an old request is asked of the desk only while the platform still takes an answer', async () => {
  const { platform, turns, lines } = await startRig()
  platform.clock.hold()
  const late = platform.slash({ name: 'echo', ...crew, options: { words: 'late' } })
  platform.clock.advance(5000)
  expect(await late.refusal()).toMatchObject({ error: { code: 10062 } })
  await vi.waitFor(() => expect(lines.map((line) => line.message)).toContain('too late to answer'))
  expect(await turns()).toBe(0)
  const fresh = platform.slash({ name: 'echo', ...crew, options: { words: 'fresh' } })
  expect(textOf(await fresh.message())).toContain('2 gal for fresh')
})

test('who has waited a second for what answers to be loaded is told to wait, and then answered', async () => {
  let loading = () => {}
  const { platform } = await startRig({ adapter: { loading: () => loading() } })
  platform.clock.hold()
  loading = () => platform.clock.advance(1200)
  const waited = platform.slash({ name: 'echo', ...crew, options: { words: 'x' } })
  expect((await waited.firstResponse()).type).toBe(Kind.DeferredChannelMessageWithSource)
  expect(textOf((await waited.followUp()).message)).toContain('2 gal for x')
  const next = platform.slash({ name: 'echo', ...crew, options: { words: 'y' } })
  platform.clock.advance(1200)
  expect((await next.firstResponse()).type).toBe(Kind.ChannelMessageWithSource)
  platform.assertClean()
})

test('with its own clock ahead the bot still answers, after saying "wait"', async () => {
  const rig = await startRig({ adapter: { nowMs: () => Date.now() + 60_000 } })
  const fired = rig.platform.slash({ name: 'echo', ...crew, options: { words: 'x' } })
  expect(textOf((await fired.followUp()).message)).toContain('# 2 gal for x')
  rig.platform.assertClean()
})

test('a malformed dispatch is logged, ends nothing, and the next request is answered', async () => {
  const { platform, lines } = await startRig()
  platform.gateway.dispatch('INTERACTION_CREATE' as never, { id: '1', type: 2, token: 't' }, undefined)
  await vi.waitFor(() =>
    expect(lines.map((line) => line.message)).toContain('an interaction could not be read'),
  )
  const message = await platform.slash({ name: 'echo', ...crew, options: { words: 'x' } }).message()
  expect(textOf(message)).toContain('2 gal')
})

test('a bug in a command is an apology with a number, without the error itself', async () => {
  const { platform, lines } = await startRig()
  const message = await platform.slash({ name: 'broken', ...crew }).message()
  expect(isPrivate(message)).toBe(true)
  expect(textOf(message)).not.toContain('secret')
  expect(JSON.stringify(lines)).toContain('secret')
  platform.assertClean()
})

test('a failure around the desk is an apology with an error number that the log has too', async () => {
  const { platform, lines } = await startRig({
    adapter: {
      desk: {
        answer: async () => {
          throw new Error('no store today')
        },
        recall: async () => null,
      },
    },
  })
  const message = await platform.slash({ name: 'echo', ...crew, options: { words: 'x' } }).message()
  const number = lines.find((line) => line.message === 'a request failed')?.about.number
  expect(number).toMatch(/^[0-9A-Z]{7}$/)
  expect(textOf(message)).toContain(`error ${number}`)
  platform.assertClean()
})

test('a lead command is refused to the crew and allowed to who runs the server', async () => {
  const { platform } = await startRig()
  const refused = await platform.slash({ name: 'note list', ...crew }).message()
  expect(isPrivate(refused)).toBe(true)
  expect(textOf(refused)).toContain('**✕ ')
  const allowed = await platform.slash({ name: 'note list', user: 'demo.lead', channel: 'field' }).message()
  expect(textOf(allowed)).toContain('The list')
  platform.assertClean()
})

test('a button of another program is refused politely', async () => {
  const { platform } = await startRig()
  const question = await platform.slash({ name: 'ask', ...crew }).message()
  const stored = platform.messagesIn('field')[0]
  const raw = JSON.parse(JSON.stringify(stored).replaceAll('s1.1.1!q', 'menu:order:66'))
  Object.assign(stored ?? {}, raw)
  const message = await platform.press({ message: question, customId: 'menu:order:66' }).message()
  expect(isPrivate(message)).toBe(true)
  expect(buttonsOf(message)).toEqual([])
  platform.assertClean()
})

const CALLBACK = { method: 'POST', route: /callback$/ }

test.each(['before', 'after'] as const)(
  'a first response whose connection is cut %s it was taken is sent again',
  async (when) => {
    const { platform, turns, lines } = await startRig()
    platform.faults.drop(CALLBACK, { when })
    const fired = platform.slash({ name: 'chart', ...crew })
    await fired.edit()
    expect(platform.messagesIn('field')).toHaveLength(1)
    expect(await turns()).toBe(1)
    expect(lines.filter((line) => line.level === 'error')).toEqual([])
  },
)

test('an answer refused for want of rights on its own token does not end the bot', async () => {
  const { platform, discord, lines } = await startRig()
  platform.faults.unauthorized(CALLBACK)
  platform.slash({ name: 'echo', ...crew, options: { words: 'x' } })
  await vi.waitFor(() =>
    expect(lines.map((line) => line.message)).toContain('the platform did not take an answer'),
  )
  expect(discord.health().ended).toBeNull()
  const next = platform.slash({ name: 'echo', ...crew, options: { words: 'y' } })
  expect(textOf(await next.message())).toContain('2 gal for y')
})
