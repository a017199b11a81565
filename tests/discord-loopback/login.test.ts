import { Client, Events, GatewayIntentBits, Routes, SlashCommandBuilder, Status } from 'discord.js'
import type { APIApplicationCommand } from 'discord-api-types/v10'
import { expect, test } from 'vitest'
import { snowflakeAt, snowflakeTimeMs, startDiscord } from './index.ts'
import { shardOf } from './snowflake.ts'
import { connect, startBot } from './testing/bot.ts'

test('the unmodified client logs in and knows itself', async () => {
  const { discord, client } = await startBot(() => {})
  expect(client.user.id).toBe(discord.applicationId)
  expect(client.ws.status).toBe(Status.Ready)
  expect(discord.counts).toMatchObject({ connections: 1, identifies: 1, resumes: 0 })
  discord.assertClean()
})

test('guilds come with their channels and roles when the intent asks for them', async () => {
  const { client, discord } = await startBot(() => {}, {}, { intents: [GatewayIntentBits.Guilds] })
  if (client.guilds.cache.first()?.available !== true)
    await new Promise((resolve) => client.once(Events.GuildAvailable, resolve))
  const guild = client.guilds.cache.first()
  expect(guild?.name).toBe('Demo Grounds')
  expect(guild?.channels.cache.map((channel) => channel.name)).toEqual(['field', 'office'])
  expect(guild?.roles.cache.map((role) => role.name).sort()).toEqual(['@everyone', 'leads'])
  expect(discord.warnings).toEqual([])
})

test('without the intent a guild is only named', async () => {
  const { client } = await startBot(() => {})
  expect(client.guilds.cache.map((guild) => guild.available)).toEqual([false])
})

test('a wrong token is refused before the gateway', async () => {
  const discord = await startDiscord()
  const client = new Client({ intents: [], rest: { api: discord.api } })
  const problem = await client.login('bm9ib2R5.demo.wrong').catch((error: Error) => error)
  expect(problem).toMatchObject({ code: 'TokenInvalid' })
  expect(discord.requests.map((each) => [each.route, each.status])).toEqual([['/gateway/bot', 401]])
  await discord.stop()
})

test('privileged intents end the connection with 4014', async () => {
  const discord = await startDiscord()
  const client = new Client({ intents: [GatewayIntentBits.MessageContent], rest: { api: discord.api } })
  client.on(Events.Error, () => {})
  const closed = new Promise((resolve) => client.once(Events.ShardDisconnect, (event) => resolve(event.code)))
  await client.login(discord.token).catch(() => {})
  expect(await closed).toBe(4014)
  await client.destroy()
  await discord.stop()
})

const commands = [
  new SlashCommandBuilder()
    .setName('mix')
    .setNameLocalization('de', 'mischen')
    .setDescription('How much to pour')
    .addStringOption((o) => o.setName('rate').setDescription('As printed').setRequired(true))
    .addStringOption((o) => o.setName('product').setDescription('From the book').setAutocomplete(true)),
].map((builder) => builder.toJSON())

test('commands register with the added fields and come back without localizations', async () => {
  const { client, discord } = await startBot(() => {})
  const set = await client.application.commands.set(commands)
  expect(set.first()).toMatchObject({
    name: 'mix',
    applicationId: discord.applicationId,
    nsfw: false,
    nameLocalizations: { de: 'mischen' },
  })
  const route = Routes.applicationCommands(discord.applicationId)
  const plain = (await client.rest.get(route)) as APIApplicationCommand[]
  expect(plain[0]).not.toHaveProperty('name_localizations')
  const query = new URLSearchParams({ with_localizations: 'true' })
  const full = (await client.rest.get(route, { query })) as APIApplicationCommand[]
  expect(full[0]?.name_localizations).toEqual({ de: 'mischen' })
  discord.assertClean()
})

test('an overwrite keeps the ids of commands that were there, and guild commands stand apart', async () => {
  const { client, discord } = await startBot(() => {})
  const before = await client.application.commands.set(commands)
  const after = await client.application.commands.set(commands)
  expect(after.first()?.id).toBe(before.first()?.id)
  const guildId = discord.world.guild('Demo Grounds').id
  await client.application.commands.set(commands, guildId)
  expect(discord.platform.commands.list(guildId)).toHaveLength(1)
  expect(discord.platform.commands.list('')).toHaveLength(1)
})

test('only registered commands can be run, and only as they were registered', async () => {
  const { client, discord } = await startBot(() => {}, { unregistered: 'refuse' })
  expect(() => discord.slash({ name: 'mix' })).toThrow('Cannot run "/mix": no such command is registered')
  await client.application.commands.set(commands)
  expect(() => discord.slash({ name: 'mix' })).toThrow('Cannot fill option "rate": it is required')
  expect(() => discord.slash({ name: 'mix', options: { rate: '1', tank: '2' } })).toThrow('"tank"')
  expect(() => discord.autocomplete({ name: 'mix', focused: 'rate' })).toThrow('it has no autocomplete')
})

test('two shards share the guilds, and each hears of its own', async () => {
  const heard: string[] = []
  const guilds = ['Demo East', 'Demo West'].map((name) => ({ name }))
  const { discord } = await startBot(
    async (interaction) => {
      heard.push(`${interaction.guild?.shardId}`)
      if (interaction.isChatInputCommand()) await interaction.reply('here')
    },
    { users: [{ name: 'demo.crew' }], guilds, shards: 2, maxConcurrency: 2 },
    { shards: 'auto' },
  )
  expect(discord.counts.identifies).toBe(2)
  for (const { name } of guilds) await discord.slash({ name: 'ping', guild: name }).firstResponse()
  expect(heard.sort()).toEqual(['0', '1'])
})

test('an identify too soon after another gets op 9, and the client tries again', async () => {
  const discord = await startDiscord({ identifyIntervalMs: 400 })
  const first = await connect(discord, () => {})
  const second = await connect(discord, () => {})
  expect(discord.counts.invalidSessions).toBeGreaterThanOrEqual(1)
  await Promise.all([first.client.destroy(), second.client.destroy()])
  await discord.stop()
})

test('ids are dated and guild ids decide the shard', () => {
  const atMs = Date.UTC(2025, 5, 1)
  expect(snowflakeTimeMs(snowflakeAt(atMs, 7))).toBe(atMs)
  expect(snowflakeAt(atMs)).toMatch(/^\d{18,19}$/)
  expect([shardOf(snowflakeAt(atMs), 2), shardOf(snowflakeAt(atMs + 1), 2)].sort()).toEqual([0, 1])
  expect(shardOf(undefined, 2)).toBe(0)
})
