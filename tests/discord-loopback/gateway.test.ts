import {
  type ChatInputCommandInteraction,
  type Client,
  Events,
  GatewayIntentBits,
  type Interaction,
} from 'discord.js'
import { expect, test } from 'vitest'
import { startDiscord } from './index.ts'
import { connect, endingWith } from './testing/bot.ts'

const onSlash =
  (handle: (interaction: ChatInputCommandInteraction) => unknown) => (interaction: Interaction) =>
    interaction.isChatInputCommand() ? handle(interaction) : undefined

const resumed = (client: Client) => new Promise((resolve) => client.once(Events.ShardResume, resolve))

test.concurrent('after a dropped socket the session resumes and what was missed is replayed in order', async ({
  onTestFinished,
}) => {
  const startBot = endingWith(onTestFinished)
  const handled: string[] = []
  const { discord, client } = await startBot(
    onSlash((interaction) => {
      handled.push(interaction.commandName)
      return interaction.reply('ok')
    }),
  )
  await discord.slash({ name: 'before' }).firstResponse()
  discord.dropSocket()
  await expect.poll(() => discord.gateway.sessions.values().next().value?.connection).toBeUndefined()
  const missed = [discord.slash({ name: 'first' }), discord.slash({ name: 'second' })]
  expect(missed.map((each) => each.delivered)).toEqual([0, 0])
  await resumed(client)
  await Promise.all(missed.map((each) => each.firstResponse()))
  expect(handled).toEqual(['before', 'first', 'second'])
  expect(discord.counts).toMatchObject({ identifies: 1, resumes: 1 })
})

test.concurrent('op 7 makes the client resume', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord, client } = await startBot(() => {})
  discord.sendOp7()
  await resumed(client)
  expect(discord.counts).toMatchObject({ identifies: 1, resumes: 1 })
})

test.concurrent('a resumable op 9 is resumed on the same socket', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord, client } = await startBot(onSlash((interaction) => interaction.reply('ok')))
  discord.sendOp9(true)
  await resumed(client)
  expect(discord.counts).toMatchObject({ connections: 1, resumes: 1 })
  await discord.slash({ name: 'mix' }).firstResponse()
})

test.concurrent('a final op 9 is answered by a new identify', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord } = await startBot(onSlash((interaction) => interaction.reply('ok')))
  discord.sendOp9(false)
  await expect.poll(() => discord.counts.identifies, { timeout: 3000 }).toBe(2)
  await discord.slash({ name: 'mix' }).firstResponse()
})

test.concurrent('an expired session cannot be resumed', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord } = await startBot(() => {})
  discord.dropSocket()
  await expect.poll(() => discord.gateway.sessions.values().next().value?.connection).toBeUndefined()
  discord.clock.advance(10 * 60_000)
  await expect
    .poll(() => discord.counts, { timeout: 5000 })
    .toMatchObject({ resumes: 1, invalidSessions: 1, identifies: 2 })
})

test.concurrent('lost heartbeats end in a resume', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord, client } = await startBot(() => {}, { heartbeatIntervalMs: 150 })
  discord.stopAcks()
  await resumed(client)
  discord.gateway.resumeAcks()
  expect(discord.counts.resumes).toBeGreaterThanOrEqual(1)
})

test.concurrent('a half-open link stays silent: the client waits on it', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord } = await startBot(() => {}, { heartbeatIntervalMs: 100 })
  discord.gateway.pauseSocket()
  await new Promise((resolve) => setTimeout(resolve, 1200))
  expect(discord.counts).toMatchObject({ connections: 1, resumes: 0 })
})

test.concurrent('a fatal close code is not followed by a new connection', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord, client } = await startBot(() => {})
  const closed = new Promise((resolve) => client.once(Events.ShardDisconnect, (event) => resolve(event.code)))
  discord.close(4004)
  expect(await closed).toBe(4004)
  expect(discord.counts.connections).toBe(1)
})

test.concurrent('a faulty replay delivers an interaction twice', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  let runs = 0
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      runs += 1
      await interaction.reply('ok')
    }),
  )
  const fired = discord.slash({ name: 'mix' })
  await fired.firstResponse()
  discord.gateway.replayFrom(1)
  expect((await fired.refusal()).error.code).toBe(40060)
  expect(runs).toBe(2)
})

test.concurrent('refused upgrades hold the client off until they end', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord, client } = await startBot(() => {})
  discord.gateway.refuseUpgrades(503)
  discord.dropSocket()
  await new Promise((resolve) => client.once(Events.ShardError, resolve))
  discord.gateway.refuseUpgrades(undefined)
  await resumed(client)
  expect(discord.counts.resumes).toBe(1)
})

test.concurrent('a server that was away is found again', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const { discord } = await startBot(onSlash((interaction) => interaction.reply('ok')))
  await discord.stopListening()
  await discord.listenAgain()
  await expect.poll(() => discord.counts.connections, { timeout: 5000 }).toBe(2)
  await discord.slash({ name: 'mix' }).firstResponse()
})

test.concurrent('a guild in an outage comes when it is over', async ({ onTestFinished }) => {
  const startBot = endingWith(onTestFinished)
  const guilds = [{ name: 'Demo Grounds', outage: true }]
  const { discord, client } = await startBot(
    onSlash((interaction) => interaction.reply('ok')),
    { users: [{ name: 'demo.crew' }], guilds },
    { intents: [GatewayIntentBits.Guilds] },
  )
  expect(client.guilds.cache.first()?.available).toBe(false)
  await discord.slash({ name: 'mix' }).firstResponse()
  const available = new Promise((resolve) => client.once(Events.GuildAvailable, resolve))
  discord.gateway.restoreGuild(discord.world.guild(undefined))
  await available
  expect(client.guilds.cache.first()?.name).toBe('Demo Grounds')
})

test('READY can come late', async () => {
  const discord = await startDiscord({ readyDelayMs: 200 })
  const startedAtMs = Date.now()
  const { client } = await connect(discord, () => {})
  expect(Date.now() - startedAtMs).toBeGreaterThanOrEqual(195)
  await client.destroy()
  await discord.stop()
})
