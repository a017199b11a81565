import {
  ActionRowBuilder,
  ButtonBuilder,
  ButtonStyle,
  type ChatInputCommandInteraction,
  ContainerBuilder,
  FileUploadBuilder,
  type Interaction,
  LabelBuilder,
  MessageFlags,
  ModalBuilder,
  SlashCommandBuilder,
  StringSelectMenuBuilder,
  TextDisplayBuilder,
  TextInputBuilder,
  TextInputStyle,
  UserSelectMenuBuilder,
} from 'discord.js'
import { InteractionResponseType as Kind } from 'discord-api-types/v10'
import { expect, test } from 'vitest'
import { startBot } from './testing/bot.ts'

const onSlash =
  (handle: (interaction: ChatInputCommandInteraction) => unknown) => (interaction: Interaction) =>
    interaction.isChatInputCommand() ? handle(interaction) : undefined

test('a reply is seen with its type, its body and its message', async () => {
  const { discord } = await startBot(onSlash((interaction) => interaction.reply('1.7 fl oz')))
  const fired = discord.slash({
    name: 'mix',
    user: 'demo.crew',
    channel: 'field',
    options: { tank: '2 gal' },
  })
  const response = await fired.firstResponse()
  expect(response).toMatchObject({ type: Kind.ChannelMessageWithSource, data: { content: '1.7 fl oz' } })
  expect(discord.messagesIn('field').map((each) => each.content)).toEqual(['1.7 fl oz'])
  expect(fired.delivered).toBe(1)
  discord.assertClean()
})

test('who, where and in which language arrive with the interaction', async () => {
  const seen: unknown[] = []
  const { discord } = await startBot(
    onSlash((interaction) => {
      seen.push([
        interaction.user.username,
        interaction.locale,
        interaction.guildLocale,
        interaction.channelId === discord.world.channel(discord.world.guild(undefined), 'office').id,
        interaction.memberPermissions?.has('ManageGuild'),
      ])
      return interaction.reply('ok')
    }),
  )
  await discord.slash({ name: 'a', user: 'demo.crew2', channel: 'office' }).firstResponse()
  await discord.slash({ name: 'a', user: 'demo.lead', channel: 'office' }).firstResponse()
  expect(seen).toEqual([
    ['demo.crew2', 'es-ES', 'en-US', true, false],
    ['demo.lead', 'en-US', 'en-US', true, true],
  ])
})

test('a member with a role gets its permissions', async () => {
  const held: (boolean | undefined)[] = []
  const { discord } = await startBot(
    onSlash((interaction) => {
      held.push(interaction.memberPermissions?.has('ManageGuild'))
      return interaction.reply('ok')
    }),
  )
  discord.world.addMember(discord.world.guild(undefined), { user: 'demo.crew', roles: ['leads'] })
  await discord.slash({ name: 'a', user: 'demo.crew' }).firstResponse()
  expect(held).toEqual([true])
  expect(() => discord.slash({ name: 'a', user: 'demo.stranger' })).toThrow('not a member')
})

test('defer, edit and follow-up', async () => {
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      await interaction.deferReply({ flags: MessageFlags.Ephemeral })
      await interaction.editReply('done')
      await interaction.followUp({ content: 'and one more', flags: MessageFlags.Ephemeral })
      await interaction.deleteReply()
    }),
  )
  const fired = discord.slash({ name: 'report' })
  expect(await fired.message()).toMatchObject({ content: 'done', flags: MessageFlags.Ephemeral })
  expect((await fired.followUp()).message.content).toBe('and one more')
  await discord.nextRequest({ method: 'DELETE' })
  expect(fired.edits).toHaveLength(1)
  discord.assertClean()
})

test('a follow-up straight after a deferral fills the waiting message', async () => {
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      await interaction.deferReply()
      await interaction.followUp('here it is')
    }),
  )
  const fired = discord.slash({ name: 'report' })
  expect((await fired.message()).content).toBe('here it is')
  expect(fired.followUps).toEqual([])
  expect(discord.messagesIn('field')).toHaveLength(1)
})

test('withResponse gives the message back', async () => {
  const ids: (string | undefined)[] = []
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      const callback = await interaction.reply({ content: 'ok', withResponse: true })
      ids.push(callback.resource?.message?.id, (await interaction.fetchReply()).id)
    }),
  )
  const { message } = await discord.slash({ name: 'a' }).firstResponse()
  await discord.nextRequest({ method: 'GET', route: '@original' })
  await expect.poll(() => ids).toEqual([message?.id, message?.id])
})

test('a reply carries files, and their bytes are served', async () => {
  const { discord } = await startBot(
    onSlash((interaction) =>
      interaction.reply({
        files: [{ attachment: Buffer.from('a,b\n1,2\n'), name: 'records.csv', description: 'Records' }],
      }),
    ),
  )
  const { files, message } = await discord.slash({ name: 'records' }).firstResponse()
  expect(files.map(({ name, bytes }) => [name, Buffer.from(bytes).toString()])).toEqual([
    ['records.csv', 'a,b\n1,2\n'],
  ])
  const attachment = message?.attachments[0]
  expect(attachment).toMatchObject({ filename: 'records.csv', size: 8, description: 'Records' })
  expect(await (await fetch(attachment?.url ?? '')).text()).toBe('a,b\n1,2\n')
  discord.clock.advance(25 * 60 * 60 * 1000)
  expect((await fetch(attachment?.url ?? '')).status).toBe(404)
})

test('a file given as an option can be fetched by its link', async () => {
  const read: string[] = []
  const { discord } = await startBot(
    onSlash(async (interaction) => {
      const photo = interaction.options.getAttachment('photo', true)
      read.push(photo.name, await (await fetch(photo.url)).text())
      await interaction.reply('seen')
    }),
  )
  await discord
    .slash({ name: 'key', options: { photo: { name: 'leaf.png', bytes: 'demo bytes' } } })
    .firstResponse()
  expect(read).toEqual(['leaf.png', 'demo bytes'])
})

test('suggestions answer what is being typed', async () => {
  const { discord, client } = await startBot(async (interaction) => {
    if (interaction.isAutocomplete())
      await interaction.respond([{ name: `${interaction.options.getFocused()}!`, value: 'demo' }])
  })
  const command = new SlashCommandBuilder()
    .setName('mix')
    .setDescription('Mix')
    .addStringOption((o) => o.setName('product').setDescription('Product').setAutocomplete(true))
  await client.application.commands.set([command.toJSON()])
  const { data } = await discord
    .autocomplete({ name: 'mix', focused: 'product', options: { product: 'dem' } })
    .firstResponse()
  expect(data).toEqual({ choices: [{ name: 'dem!', value: 'demo' }] })
  discord.assertClean()
})

const row = (...buttons: ButtonBuilder[]) => new ActionRowBuilder<ButtonBuilder>().addComponents(...buttons)
const poured = new ButtonBuilder().setCustomId('poured').setLabel('Poured').setStyle(ButtonStyle.Success)

test('a button updates its message', async () => {
  const { discord } = await startBot(async (interaction) => {
    if (interaction.isChatInputCommand())
      await interaction.reply({ content: 'mix', components: [row(poured)] })
    if (interaction.isButton())
      await interaction.update({ content: `${interaction.customId}!`, components: [] })
  })
  const message = await discord.slash({ name: 'mix', user: 'demo.crew' }).message()
  const pressed = discord.press({ message, customId: 'poured' })
  expect(await pressed.firstResponse()).toMatchObject({ type: Kind.UpdateMessage })
  expect(discord.messagesIn('field').map((each) => [each.id, each.content])).toEqual([
    [message.id, 'poured!'],
  ])
  expect(() => discord.press({ message, customId: 'poured' })).toThrow('no such component')
  discord.assertClean()
})

test('a disabled button and another person’s private message cannot be used', async () => {
  const { discord } = await startBot(async (interaction) => {
    if (!interaction.isChatInputCommand()) return
    const off = new ButtonBuilder(poured.toJSON()).setCustomId('off').setDisabled(true)
    await interaction.reply({ content: 'mix', components: [row(poured, off)], flags: MessageFlags.Ephemeral })
  })
  const message = await discord.slash({ name: 'mix', user: 'demo.crew' }).message()
  expect(() => discord.press({ message, customId: 'off' })).toThrow('disabled')
  expect(() => discord.press({ message, customId: 'poured', user: 'demo.lead' })).toThrow(
    'only another person',
  )
})

test('a select menu gives its values, and a deferred update edits its message', async () => {
  const { discord } = await startBot(async (interaction) => {
    const menu = new StringSelectMenuBuilder()
      .setCustomId('turf')
      .addOptions({ label: 'Demo turf', value: 'demo-turf' }, { label: 'Other', value: 'other' })
    if (interaction.isChatInputCommand())
      await interaction.reply({
        components: [new ActionRowBuilder<StringSelectMenuBuilder>().addComponents(menu)],
        content: '?',
      })
    if (!interaction.isStringSelectMenu()) return
    await interaction.deferUpdate()
    await interaction.editReply({ content: interaction.values.join(), components: [] })
  })
  const message = await discord.slash({ name: 'key' }).message()
  expect(() => discord.select({ message, customId: 'turf', values: ['none'] })).toThrow('not offered')
  const chosen = discord.select({ message, customId: 'turf', values: ['demo-turf'] })
  expect((await chosen.edit()).message).toMatchObject({ id: message.id, content: 'demo-turf' })
})

const form = () =>
  new ModalBuilder()
    .setCustomId('entry')
    .setTitle('Label entry')
    .addLabelComponents(
      new LabelBuilder()
        .setLabel('Rate')
        .setTextInputComponent(
          new TextInputBuilder().setCustomId('rate').setStyle(TextInputStyle.Short).setMaxLength(20),
        ),
      new LabelBuilder()
        .setLabel('Form')
        .setStringSelectMenuComponent(
          new StringSelectMenuBuilder()
            .setCustomId('form')
            .addOptions({ label: 'Dry', value: 'dry' }, { label: 'Liquid', value: 'liquid' }),
        ),
      new LabelBuilder()
        .setLabel('Photo')
        .setFileUploadComponent(new FileUploadBuilder().setCustomId('photo').setRequired(false)),
    )

test('a modal with text, choice and file comes back filled in', async () => {
  const got: unknown[] = []
  const { discord } = await startBot(async (interaction) => {
    if (interaction.isChatInputCommand()) await interaction.showModal(form())
    if (!interaction.isModalSubmit()) return
    const { fields } = interaction
    got.push(
      fields.getTextInputValue('rate'),
      fields.getStringSelectValues('form'),
      fields.getUploadedFiles('photo')?.map((f) => f.name),
    )
    await interaction.reply('kept')
  })
  const opened = discord.slash({ name: 'label', user: 'demo.lead' })
  expect(await opened.modal()).toMatchObject({ title: 'Label entry' })
  const submitted = discord.submitModal({
    customId: 'entry',
    fields: { rate: '3 pt/acre', form: 'liquid', photo: [{ name: 'label.jpg', bytes: 'demo' }] },
  })
  expect((await submitted.message()).content).toBe('kept')
  expect(got).toEqual(['3 pt/acre', ['liquid'], ['label.jpg']])
  discord.assertClean()
})

test.each([
  [{}, 'it is required'],
  [{ rate: 'x'.repeat(21), form: 'dry' }, '21 characters'],
  [{ rate: '1', form: 'gas' }, 'not offered'],
  [{ rate: '1', form: 'dry', note: 'x' }, 'none of that name'],
])('a form cannot be sent with %j', async (fields, why) => {
  const { discord } = await startBot(async (interaction) => {
    if (interaction.isChatInputCommand()) await interaction.showModal(form())
  })
  const from = discord.slash({ name: 'label' })
  await from.modal()
  expect(() => discord.submitModal({ from, fields })).toThrow(why)
})

test('a V2 reply stands with its components', async () => {
  const { discord } = await startBot(
    onSlash((interaction) =>
      interaction.reply({
        flags: MessageFlags.IsComponentsV2,
        components: [
          new ContainerBuilder()
            .addTextDisplayComponents(new TextDisplayBuilder().setContent('**1.7 fl oz**'))
            .addActionRowComponents(row(poured)),
        ],
      }),
    ),
  )
  const message = await discord.slash({ name: 'mix' }).message()
  expect(message.components?.[0]).toMatchObject({
    type: 17,
    id: 1,
    components: [
      { type: 10, id: 2 },
      { type: 1, id: 3 },
    ],
  })
  discord.assertClean()
})

test('direct messages have a user, no member, and no guild', async () => {
  const seen: unknown[] = []
  const { discord } = await startBot(
    onSlash((interaction) => {
      seen.push(interaction.inGuild(), interaction.memberPermissions, interaction.user.username)
      return interaction.reply('hello')
    }),
  )
  await discord.slash({ name: 'mix', user: 'demo.crew', dm: true }).firstResponse()
  expect(seen).toEqual([false, null, 'demo.crew'])
  expect(discord.directMessages('demo.crew').map((each) => each.content)).toEqual(['hello'])
})

test('subcommands travel nested', async () => {
  const seen: unknown[] = []
  const { discord, client } = await startBot(
    onSlash((interaction) => {
      seen.push(interaction.options.getSubcommand(), interaction.options.getString('month'))
      return interaction.reply('ok')
    }),
    { unregistered: 'refuse' },
  )
  const command = new SlashCommandBuilder()
    .setName('records')
    .setDescription('Records')
    .addSubcommand((s) =>
      s
        .setName('export')
        .setDescription('Export')
        .addStringOption((o) => o.setName('month').setDescription('Month')),
    )
  await client.application.commands.set([command.toJSON()])
  expect(() => discord.slash({ name: 'records' })).toThrow('name one of its subcommands')
  await discord.slash({ name: 'records export', options: { month: 'May' } }).firstResponse()
  expect(seen).toEqual(['export', 'May'])
})

test('user text pings nobody when mentions are switched off, and users only by default', async () => {
  const { discord } = await startBot(
    onSlash((interaction) =>
      interaction.reply({
        content: interaction.options.getString('note', true),
        ...(interaction.commandName === 'quiet' ? { allowedMentions: { parse: [] } } : {}),
      }),
    ),
  )
  const note = `@everyone <@${discord.world.user('demo.lead').id}>`
  const loud = await discord.slash({ name: 'loud', options: { note } }).message()
  const quiet = await discord.slash({ name: 'quiet', options: { note } }).message()
  expect([loud.mentions.length, loud.mention_everyone]).toEqual([1, false])
  expect([quiet.mentions.length, quiet.mention_everyone]).toEqual([0, false])
})

test('people chosen in an option or a menu come with their objects', async () => {
  const seen: unknown[] = []
  const { discord, client } = await startBot(
    async (interaction) => {
      const menu = new UserSelectMenuBuilder().setCustomId('who')
      const components = [new ActionRowBuilder<UserSelectMenuBuilder>().addComponents(menu)]
      if (interaction.isChatInputCommand()) {
        seen.push(interaction.options.getUser('to')?.username, interaction.options.getRole('role')?.name)
        await interaction.reply({ content: 'who?', components })
      }
      if (!interaction.isUserSelectMenu()) return
      seen.push(interaction.users.map((user) => user.username))
      await interaction.update({ content: 'thanks', components: [] })
    },
    { unregistered: 'refuse' },
  )
  const command = new SlashCommandBuilder()
    .setName('assign')
    .setDescription('Assign')
    .addUserOption((o) => o.setName('to').setDescription('To').setRequired(true))
    .addRoleOption((o) => o.setName('role').setDescription('Role'))
  await client.application.commands.set([command.toJSON()])
  const message = await discord
    .slash({ name: 'assign', options: { to: 'demo.crew', role: 'leads' } })
    .message()
  await discord.select({ message, customId: 'who', values: ['demo.lead'] }).firstResponse()
  expect(seen).toEqual(['demo.crew', 'leads', ['demo.lead']])
})

test.each([
  ['11 files', 11, 10, { status: 400, error: { code: 30015 } }],
  ['a file over 10 MiB', 1, 10 * 1024 * 1024 + 1, { status: 413, error: { code: 40005 } }],
  ['more than 25 MiB in all', 3, 9 * 1024 * 1024, { status: 413, error: { code: 40005 } }],
])('%s are refused', async (_what, count, sizeBytes, refused) => {
  const files = Array.from({ length: count }, (_, n) => ({
    attachment: Buffer.alloc(sizeBytes),
    name: `${n}.bin`,
  }))
  const { discord } = await startBot(onSlash((interaction) => interaction.reply({ files })))
  expect(await discord.slash({ name: 'records' }).refusal()).toMatchObject(refused)
  expect(discord.violations).toHaveLength(1)
})

test('a malformed frame can be made on purpose', async () => {
  const { discord } = await startBot(() => {})
  discord.dropSocket()
  const { frame } = discord.slash({ name: 'mix', omit: ['entitlements'] })
  expect(frame).not.toHaveProperty('entitlements')
  expect(frame).toHaveProperty('token')
})
