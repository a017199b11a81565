import { expect, test } from 'vitest'
import { eachEngine } from '#tests/helpers/engines.ts'
import { buttonsOf, isPrivate, menuOf, textOf } from '#tests/messengers/discord/seen.ts'
import { expectQuiet, type OnDiscord, soon, startCrew } from './crew.ts'
import { HAND_CAN, seedCrew } from './seed.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const typed = { tank: '2 gal', output: '1 gal/1000 ft2' }
const TWO_CREWS = {
  users: [{ name: 'demo.lead' }, { name: 'demo.crew' }],
  guilds: ['North', 'South'].map((name) => ({
    name: `Demo ${name}`,
    owner: 'demo.lead',
    channels: [{ name: `field-${name.toLowerCase()}` }],
    members: [{ user: 'demo.lead' }, { user: 'demo.crew' }],
  })),
}
const SEND = { method: 'POST', route: '/channels/{channel_id}/messages' }

/** The book refuses a rate; the same rate typed off a label is then answered, and told to every lead. */
async function repeatRefusal({ platform }: OnDiscord): Promise<string> {
  const rate = '2 fl oz/1000 ft2'
  const refused = { ...typed, product: 'Dunvarrow 2 SC', line: 'grown-crab', rate }
  expect(textOf(await platform.slash({ name: 'mix', ...crew, options: refused }).message())).toContain(
    '**✕ No',
  )
  return textOf(await platform.slash({ name: 'mix', ...crew, options: { ...typed, rate } }).message())
}

const unsent = (on: OnDiscord) =>
  on.bot.database.db.selectFrom('deliveries').select('id').where('sentAtMs', 'is', null).execute()

const putOffUntilMs = async ({ bot }: OnDiscord) =>
  (await bot.database.db.selectFrom('deliveries').select('claimedUntilMs').executeTakeFirst())?.claimedUntilMs

eachEngine('direct messages on Discord', (place) => {
  test('a person of one crew asks directly, about their own crew', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const direct = { user: 'demo.crew', dm: true }
    const options = { product: 'Dunvarrow 2 SC', sprayer: HAND_CAN, tank: '1/2', season: 'summer' }
    const question = await platform.slash({ name: 'mix', ...direct, options }).message()
    expect(isPrivate(question)).toBe(false)
    await on.restart()
    const [line] = buttonsOf(question)
    const answer = await platform.press({ message: question, customId: line?.customId ?? '' }).message()
    expect(textOf(answer)).toContain('Which rate?')
    const found = platform.autocomplete({
      name: 'mix',
      ...direct,
      focused: 'product',
      options: { product: 'dun' },
    })
    expect((await found.firstResponse()).data.choices).toMatchObject([{ value: 'Dunvarrow 2 SC' }])
    expectQuiet(on)
  })

  test('a person of two crews says which one, and no crew sees what the other was asked', async () => {
    const on = await startCrew(place, { world: TWO_CREWS })
    const { platform } = on
    await seedCrew(on.bot.database, platform, 'Demo South')
    const asked = await platform
      .slash({ name: 'sprayer show', user: 'demo.crew', dm: true, options: { sprayer: HAND_CAN } })
      .message()
    expect(textOf(asked)).toBe('Which crew is this about?')
    const menu = menuOf(asked)
    expect(menu.labels).toEqual(['Demo North', 'Demo South'])
    const chosen = platform.select({
      message: asked,
      customId: menu.customId,
      values: [menu.values[1] ?? ''],
    })
    expect(textOf(await chosen.message())).toContain(HAND_CAN)
    expect([await on.answers('Demo North'), await on.answers('Demo South')]).toEqual([0, 1])
    expectQuiet(on)
  })

  test('somebody without a crew is told where to begin, and nothing is written', async () => {
    const on = await startCrew(place)
    const fired = on.platform.slash({ name: 'emergency', user: 'demo.stranger', dm: true })
    expect(textOf(await fired.message())).toContain('Send a command in your crew’s server first')
    expect(await on.answers()).toBe(0)
    expectQuiet(on)
  })

  test('somebody removed from the server is a stranger: no question, no old button, no name', async () => {
    const on = await startCrew(place)
    const { platform } = on
    const direct = { user: 'demo.crew', dm: true }
    const options = { product: 'Dunvarrow 2 SC', sprayer: HAND_CAN, tank: '1/2', season: 'summer' }
    const question = await platform.slash({ name: 'mix', ...direct, options }).message()
    const kept = await on.answers()
    platform.world.guild(undefined).members.delete(platform.world.user('demo.crew').id)
    // What was heard of a person stays good for minutes.
    platform.clock.advance(6 * 60_000)
    const [line] = buttonsOf(question)
    const tried = [
      await platform.slash({ name: 'site list', ...direct }).message(),
      await platform.slash({ name: 'mix', ...direct, options }).message(),
      await platform.press({ message: question, customId: line?.customId ?? '' }).message(),
    ]
    for (const message of tried)
      expect(textOf(message)).toContain('Send a command in your crew’s server first')
    const typing = { name: 'mix', ...direct, focused: 'product', options: { product: 'dun' } }
    expect((await platform.autocomplete(typing).firstResponse()).data.choices).toEqual([])
    expect(await on.answers()).toBe(kept)
    expectQuiet(on)
  })

  test('a platform that cannot say whether somebody is still in the server lets nobody in', async () => {
    const on = await startCrew(place)
    const { platform } = on
    platform.faults.serverError(
      { method: 'GET', route: '/guilds/{guild_id}/members/{user_id}' },
      { times: 20 },
    )
    const asked = platform.slash({ name: 'site list', user: 'demo.crew', dm: true })
    expect(textOf(await asked.message())).toContain('Send a command in your crew’s server first')
    expect(await on.answers()).toBe(0)
  })

  test('a lead hears directly that a typed rate repeats a refusal, once', async () => {
    const on = await startCrew(place)
    const { platform } = on
    // Leads by the server's word alone: nothing is kept of a role.
    await platform.slash({ name: 'setup me', user: 'demo.lead', channel: 'office' }).message()
    expect(await repeatRefusal(on)).toContain('Your lead is told')
    await soon(() => expect(platform.directMessages('demo.lead')).toHaveLength(1))
    const [message] = platform.directMessages('demo.lead')
    expect(textOf(message ?? {})).toContain('demo.crew typed 2 fl oz/1000 ft² off a label')
    const [sent] = platform.requestsTo(SEND)
    expect(sent?.body).toMatchObject({ enforce_nonce: true, nonce: expect.stringMatching(/^.{1,25}$/) })
    await soon(async () => expect(await unsent(on)).toEqual([]))
    await on.restart()
    await soon(async () => expect(await unsent(on)).toEqual([]))
    expect(platform.directMessages('demo.lead')).toHaveLength(1)
    expect(platform.directMessages('demo.crew')).toEqual([])
    expectQuiet(on)
  })

  test('a send whose answer is lost is made again, and shows once', async () => {
    const on = await startCrew(place)
    const { platform } = on
    await platform.slash({ name: 'setup me', user: 'demo.lead', channel: 'office' }).message()
    platform.faults.drop(SEND)
    await repeatRefusal(on)
    await soon(async () => expect(await unsent(on)).toEqual([]))
    expect(platform.requestsTo(SEND).length).toBeGreaterThan(1)
    expect(platform.directMessages('demo.lead')).toHaveLength(1)
    expectQuiet(on)
  })

  test('a lead who takes no direct messages is called where they spoke last, after a restart too', async () => {
    const on = await startCrew(place)
    const { platform } = on
    await platform.slash({ name: 'setup me', user: 'demo.lead', channel: 'office' }).message()
    platform.world.user('demo.lead').dmsClosed = true
    await on.restart()
    await repeatRefusal(on)
    const called = () => platform.messagesIn('office').filter((one) => one.mentions.length > 0)
    await soon(() => expect(called()).toHaveLength(1))
    const { id } = platform.world.user('demo.lead')
    expect(called()[0]?.mentions.map((user) => user.id)).toEqual([id])
    expect(textOf(called()[0] ?? {})).toContain('off a label')
    await soon(async () => expect(await unsent(on)).toEqual([]))
    expectQuiet(on)
  })

  test('whom no way reaches is tried again a day later, not at once', async () => {
    const on = await startCrew(place, {})
    const { platform } = on
    await platform.slash({ name: 'setup me', user: 'demo.lead', channel: 'office' }).message()
    platform.world.user('demo.lead').dmsClosed = true
    const guild = platform.world.guild(undefined)
    const office = platform.world.channel(guild, 'office').id
    platform.world.channels.delete(office)
    await repeatRefusal(on)
    await soon(() => expect(on.errors).toHaveLength(1))
    expect(on.errors).toMatchObject([{ name: 'Unreachable' }])
    // The trouble is told before it is written down; a clock that jumped in between would put the day off as well.
    await soon(async () =>
      expect(await putOffUntilMs(on)).toBeGreaterThan(platform.clock.nowMs() + 20 * 3_600_000),
    )
    const attempts = platform.requestsTo(SEND).length
    platform.clock.advance(2 * 3_600_000)
    await new Promise((done) => setTimeout(done, 200))
    expect(platform.requestsTo(SEND)).toHaveLength(attempts)
    platform.world.user('demo.lead').dmsClosed = false
    platform.clock.advance(23 * 3_600_000)
    await soon(() => expect(platform.directMessages('demo.lead')).toHaveLength(1))
    await soon(async () => expect(await unsent(on)).toEqual([]))
  })
})
