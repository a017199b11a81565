import { expect, test, vi } from 'vitest'
import { defineAll } from '#src/messengers/discord/definitions.ts'
import { TokenRefused } from '#src/messengers/discord/start.ts'
import { startDiscord } from '#tests/helpers/start-discord.ts'
import { drawsNothing, drawsOne } from './draws.ts'
import { startRig, words } from './rig.ts'
import { textOf } from './seen.ts'
import { toyRegistry } from './toys.ts'

const crew = { user: 'demo.crew', channel: 'field' }
const echo = { name: 'echo', ...crew, options: { words: 'x' } }

test('no intents are asked for, and nobody is kept in memory', async () => {
  const { platform, discord } = await startRig()
  const identifies = [...platform.gateway.sessions.values()].map((session) => session.intents)
  expect(identifies).toEqual([0])
  expect(discord.client.users.cache.size).toBeLessThanOrEqual(1)
  for (let n = 0; n < 20; n += 1) await platform.slash(echo).message()
  expect(discord.client.users.cache.size).toBeLessThanOrEqual(1)
})

test('of two hundred servers a line each is kept, and of nobody in them anything', async () => {
  const people = ['demo.lead', 'demo.crew']
  const { platform, discord } = await startRig({
    world: {
      users: people.map((name) => ({ name })),
      guilds: Array.from({ length: 200 }, (_, at) => ({
        name: `Demo Grounds ${at}`,
        channels: [{ name: `field ${at}` }],
        members: people.map((user) => ({ user })),
      })),
    },
  })
  const { client } = discord
  expect(client.options.intents.bitfield).toBe(0)
  for (let at = 0; at < 20; at += 1)
    await platform
      .slash({ ...echo, guild: `Demo Grounds ${at}`, channel: `field ${at}`, user: 'demo.crew' })
      .message()
  const { guilds } = client
  expect(guilds.cache.size).toBe(200)
  const kept = guilds.cache.reduce(
    (sum, guild) => sum + guild.members.cache.size + guild.channels.cache.size + guild.roles.cache.size,
    0,
  )
  expect(kept).toBe(0)
  expect(client.channels.cache.size).toBe(0)
  expect(client.users.cache.size).toBeLessThanOrEqual(1)
})

test('after a lost socket the session is resumed and nothing is answered twice', async () => {
  const { platform, discord, turns } = await startRig()
  platform.dropSocket()
  await vi.waitFor(() => expect(discord.health().shards[0]?.isReady).toBe(false))
  expect(discord.health().ok).toBe(true)
  const fired = platform.slash(echo)
  expect(textOf(await fired.message())).toContain('2 gal')
  await vi.waitFor(() => expect(discord.health().shards[0]?.isReady).toBe(true))
  expect(platform.counts).toMatchObject({ identifies: 1, resumes: 1 })
  expect(await turns()).toBe(1)
})

test('a shard that stays away is unhealthy after a minute', async () => {
  let aheadMs = 0
  const { platform, discord } = await startRig({ adapter: { nowMs: () => Date.now() + aheadMs } })
  expect(discord.health()).toMatchObject({ ok: true, ended: null, shards: [{ status: 'Ready' }] })
  await platform.stopListening()
  await vi.waitFor(() => expect(discord.health().shards[0]?.isReady).toBe(false))
  aheadMs = 61_000
  expect(discord.health().ok).toBe(false)
  await platform.listenAgain()
  await vi.waitFor(() => expect(discord.health().ok).toBe(true), { timeout: 15_000 })
}, 20_000)

test.each([4004, 4014])('closed for good with %d: told once, and unhealthy', async (code) => {
  const { platform, discord } = await startRig()
  platform.close(code)
  expect(await discord.ended).toBe('gateway-closed')
  expect(discord.health()).toMatchObject({ ok: false, ended: 'gateway-closed' })
})

test('a refused token ends it, also in the middle of the day', async () => {
  const { platform, discord } = await startRig()
  platform.faults.unauthorized({ method: 'POST', route: '/users/@me/channels' })
  const address = { crewKey: 'discord:1', personKey: platform.world.user('demo.crew').id }
  const answered = await askedFor(discord, address)
  expect(answered).toMatchObject({ trouble: 'token-refused', again: false })
  expect(await discord.ended).toBe('token-refused')
})

async function askedFor(
  discord: Awaited<ReturnType<typeof startRig>>['discord'],
  address: { crewKey: string; personKey: string },
) {
  const { reply } = await import('#src/conversation/reply.ts')
  const answered = {
    reply: reply('answer', { say: 'toy.line' }, { audience: 'person' }),
    number: 1,
    turnId: 1,
    language: { person: 'en', crew: 'en' },
    zone: 'America/Chicago',
    replayed: false,
    demo: false,
  } as const
  return discord.deliver(address, answered, 'n').catch((error: unknown) => error)
}

test('a token that the platform does not know stops the start', async () => {
  const { platform } = await startRig()
  const log = { debug() {}, info() {}, warn() {}, error() {} }
  const wrong = startDiscord({
    token: `${platform.token}x`,
    api: platform.api,
    desk: { answer: async () => Promise.reject(new Error('not asked')), recall: async () => null },
    registry: toyRegistry,
    define: () => defineAll(toyRegistry, words),
    words,
    suggest: async () => [],
    crewsOf: async () => [],
    draw: drawsNothing('not asked'),
    log,
  })
  await expect(wrong).rejects.toThrow(TokenRefused)
})

test('a shutdown finishes what is in flight and tells newcomers to come again', async () => {
  let open: () => void = () => {}
  const gate = new Promise<void>((done) => {
    open = done
  })
  const { platform, discord, turns } = await startRig({
    adapter: {
      draw: drawsOne(async () => {
        await gate
        return new Uint8Array([1])
      }),
    },
  })
  const slow = platform.slash({ name: 'paper', ...crew })
  await slow.firstResponse()
  const stopping = discord.stop(5000)
  const late = await platform.slash(echo).message()
  expect(textOf(late)).toContain('Restarting: nothing was written')
  open()
  await stopping
  expect(slow.edits).toHaveLength(1)
  expect(await turns()).toBe(1)
  platform.assertClean()
})

test('a shutdown does not wait for ever', async () => {
  const { platform, discord, lines } = await startRig({
    adapter: { draw: drawsOne(() => new Promise(() => {})) },
  })
  await platform.slash({ name: 'paper', ...crew }).firstResponse()
  const before = Date.now()
  await discord.stop(1800)
  expect(Date.now() - before).toBeLessThan(3500)
  expect(lines.map((line) => line.message)).toContain('leaving with requests unanswered')
})

test('what sends reminders starts with the connection and ends with it', async () => {
  const seen: string[] = []
  const { discord } = await startRig({
    adapter: {
      deliverQueue: (deliver) => {
        seen.push(typeof deliver)
        return () => {
          seen.push('ended')
        }
      },
    },
  })
  await discord.stop()
  expect(seen).toEqual(['function', 'ended'])
})

test('a callback told to wait too long is given up, and the next one works', async () => {
  const { platform, lines } = await startRig()
  platform.faults.tooMany({ method: 'POST', route: /callback$/ }, { retryAfterS: 60 })
  platform.slash(echo)
  await vi.waitFor(() =>
    expect(lines.map((line) => line.message)).toContain('the platform did not take an answer'),
  )
})

test('lead by a role is known without the intent for servers', async () => {
  const seen: unknown[] = []
  const { platform } = await startRig({
    adapter: {
      desk: {
        answer: async (ask) => {
          seen.push(ask.by)
          return Promise.reject(new Error('enough'))
        },
        recall: async () => null,
      },
    },
  })
  await platform.slash({ ...echo, user: 'demo.lead' }).message()
  const guild = platform.world.guild(undefined)
  expect(seen).toMatchObject([
    {
      crewKey: `discord:${guild.id}`,
      crewName: 'Demo Grounds',
      personName: 'demo.lead',
      runsServer: true,
      crewLocale: 'en-US',
    },
  ])
  expect((seen[0] as { roles: string[] }).roles).toEqual(
    [...guild.roles.values()].filter((role) => role.name === 'leads').map((role) => role.id),
  )
})

test('two shards are both ready, looked after, and answer', async () => {
  const { platform, discord } = await startRig({ world: { shards: 2 } })
  await platform.slash(echo).message()
  expect(discord.health().shards.map((one) => one.isReady)).toEqual([true, true])
  platform.assertClean()
}, 20_000)
