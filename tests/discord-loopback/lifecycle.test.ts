import { type ChatInputCommandInteraction, type Interaction, MessageFlags } from 'discord.js'
import { expect, test } from 'vitest'
import { codeOf, startBot } from './testing/bot.ts'

const onSlash =
  (handle: (interaction: ChatInputCommandInteraction) => unknown) => (interaction: Interaction) =>
    interaction.isChatInputCommand() ? handle(interaction) : undefined

test('an answer after three seconds is too late: 10062', async () => {
  const codes: unknown[] = []
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      discord.clock.advance(3001)
      codes.push(await codeOf(interaction.reply('late')))
    }),
  )
  const fired = discord.slash({ name: 'mix' })
  expect(await fired.refusal()).toMatchObject({
    status: 404,
    error: { code: 10062, message: 'Unknown interaction' },
  })
  await expect.poll(() => codes).toEqual([10062])
  expect(fired.response).toBeUndefined()
  expect(discord.messagesIn('field')).toEqual([])
})

test('an answer at exactly three seconds is in time', async () => {
  const { discord } = await startBot(
    onSlash((interaction) => {
      discord.clock.advance(3000)
      return interaction.reply('in time')
    }),
  )
  discord.clock.hold()
  expect(await discord.slash({ name: 'mix' }).firstResponse()).toMatchObject({ afterMs: 3000 })
})

test('the same frame twice is answered once; the second answer is refused with 40060', async () => {
  const codes: unknown[] = []
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      codes.push(await codeOf(interaction.reply('once')))
    }),
  )
  const fired = discord.slash({ name: 'mix' })
  fired.sendAgain()
  expect(await fired.refusal()).toMatchObject({ status: 400, error: { code: 40060 } })
  await expect.poll(() => codes.length).toBe(2)
  expect(codes.sort()).toEqual([40060, 'accepted'])
  expect(discord.messagesIn('field')).toHaveLength(1)
  discord.assertClean()
})

test('a token that belongs to no interaction is unknown', async () => {
  const { discord, client } = await startBot(() => {})
  const call = (path: `/${string}`, body: unknown) => codeOf(client.rest.post(path, { body, auth: false }))
  expect(await call(`/interactions/${discord.applicationId}/nonsense/callback`, { type: 5 })).toBe(10062)
  expect(await call(`/webhooks/${discord.applicationId}/nonsense`, { content: 'x' })).toBe(10015)
})

test('the token lives fifteen minutes', async () => {
  const codes: unknown[] = []
  const minutesLater = async (minutes: number, interaction: ChatInputCommandInteraction) => {
    discord.clock.advance(minutes * 60_000)
    codes.push(await codeOf(interaction.followUp(`after ${minutes}`)))
  }
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      await interaction.reply('ok')
      await minutesLater(14, interaction)
      await minutesLater(2, interaction)
    }),
  )
  await discord.slash({ name: 'mix' }).firstResponse()
  await expect.poll(() => codes).toEqual(['accepted', 50027])
})

test('before a first response there is nothing to edit', async () => {
  const { discord, client } = await startBot(() => {})
  const { record } = discord.slash({ name: 'mix' })
  const path = `/webhooks/${discord.applicationId}/${record.token}/messages/@original` as const
  expect(await codeOf(client.rest.patch(path, { body: { content: 'x' }, auth: false }))).toBe(10015)
})

test('a private answer cannot be fetched through its channel', async () => {
  const { discord, client } = await startBot(
    onSlash((interaction) => interaction.reply({ content: 'for you', flags: MessageFlags.Ephemeral })),
  )
  const { id, channel_id } = await discord.slash({ name: 'mix' }).message()
  expect(await codeOf(client.rest.get(`/channels/${channel_id}/messages/${id}`))).toBe(10008)
})

test('an app that is not in the guild gets five follow-ups', async () => {
  const codes: unknown[] = []
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      await interaction.reply('ok')
      for (let n = 1; n <= 6; n += 1) codes.push(await codeOf(interaction.followUp(`${n}`)))
    }),
    { users: [{ name: 'demo.crew' }], guilds: [{ name: 'Demo Elsewhere', install: 'user' }] },
  )
  await discord.slash({ name: 'mix' }).firstResponse()
  await expect.poll(() => codes.length).toBe(6)
  expect(codes).toEqual(['accepted', 'accepted', 'accepted', 'accepted', 'accepted', 40094])
})

const raw = (
  client: { rest: { post(path: `/${string}`, options: object): Promise<unknown> } },
  channel: string,
) => ({
  send: (body: object) =>
    client.rest.post(`/channels/${channel}/messages`, { body }) as Promise<{ id: string }>,
})

test('an enforced nonce makes one message, for some minutes', async () => {
  const { discord, client } = await startBot(() => {})
  const { id } = discord.world.channel(discord.world.guild(undefined), 'field')
  const { send } = raw(client, id)
  const first = await send({ content: 'recheck', nonce: 'r-17', enforce_nonce: true })
  expect((await send({ content: 'recheck', nonce: 'r-17', enforce_nonce: true })).id).toBe(first.id)
  expect((await send({ content: 'recheck', nonce: 'r-17' })).id).not.toBe(first.id)
  discord.clock.advance(6 * 60_000)
  expect((await send({ content: 'recheck', nonce: 'r-17', enforce_nonce: true })).id).not.toBe(first.id)
  expect(discord.messagesIn('field')).toHaveLength(3)
})

test('direct messages reach those who take them', async () => {
  const { discord, client } = await startBot(() => {})
  const lead = await client.users.fetch(discord.world.user('demo.lead').id)
  await lead.send('recheck today')
  expect(discord.directMessages('demo.lead').map((each) => each.content)).toEqual(['recheck today'])
  discord.world.user('demo.crew').dmsClosed = true
  const crew = await client.users.fetch(discord.world.user('demo.crew').id)
  expect(await codeOf(crew.send('x'))).toBe(50007)
  const stranger = await client.users.fetch(discord.world.user('demo.stranger').id)
  expect(await codeOf(stranger.send('x'))).toBe(50278)
})

test('channels that are closed to the bot refuse it', async () => {
  const { discord, client } = await startBot(() => {})
  const guild = discord.world.guild(undefined)
  const bot = { id: discord.applicationId, type: 1, allow: '0' }
  const hidden = discord.world.addChannel(guild, { name: 'hidden', overwrites: [{ ...bot, deny: '1024' }] })
  const mute = discord.world.addChannel(guild, { name: 'mute', overwrites: [{ ...bot, deny: '2048' }] })
  expect(await codeOf(raw(client, hidden.id).send({ content: 'x' }))).toBe(50001)
  expect(await codeOf(raw(client, mute.id).send({ content: 'x' }))).toBe(50013)
  expect(await codeOf(raw(client, discord.applicationId).send({ content: 'x' }))).toBe(10003)
})
