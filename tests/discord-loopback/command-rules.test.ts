import { ApplicationCommandOptionType as O } from 'discord-api-types/v10'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type DiscordStandIn, startDiscord } from './index.ts'
import { commandLength } from './rules/command.ts'
import { call } from './testing/caller.ts'

/** Limits: Discord developer docs, interactions/application-commands. */
let discord: DiscordStandIn
beforeAll(async () => {
  discord = await startDiscord()
})
afterAll(() => discord.stop())

const x = (n: number) => 'x'.repeat(n)
const many = <T>(n: number, make: (i: number) => T) => Array.from({ length: n }, (_, i) => make(i))
const command = (extra: object = {}) => ({ name: 'mix', description: 'd', ...extra })
const text = (extra: object = {}) => ({ type: O.String, name: 'a', description: 'd', ...extra })
const withOption = (extra: object) => command({ options: [text(extra)] })
const subcommand = (extra: object = {}) => ({ type: O.Subcommand, name: 's', description: 'd', ...extra })
const group = (...options: object[]) => ({ type: O.SubcommandGroup, name: 'g', description: 'd', options })
const choices = (n: number) => many(n, (i) => ({ name: `${i}`, value: `${i}` }))
/** 25 options of 25 choices, padded: far over what one command may hold. */
const bulky = command({
  options: many(25, (i) =>
    text({ name: `o${i}`, choices: choices(25).map((c) => ({ ...c, value: c.value.padEnd(20, '-') })) }),
  ),
})

const refusedRows: [rule: string, body: object, error: string][] = [
  ['capitals in its name', command({ name: 'Mix' }), '0.name APPLICATION_COMMAND_INVALID_NAME'],
  ['a blank in its name', command({ name: 'mix it' }), '0.name STRING_TYPE_REGEX'],
  ['a name of 33', command({ name: x(33) }), '0.name BASE_TYPE_BAD_LENGTH'],
  ['no description', command({ description: '' }), '0.description BASE_TYPE_REQUIRED'],
  ['a description of 101', command({ description: x(101) }), '0.description BASE_TYPE_BAD_LENGTH'],
  [
    '26 options',
    command({ options: many(26, (i) => text({ name: `o${i}` })) }),
    '0.options BASE_TYPE_BAD_LENGTH',
  ],
  [
    'an option name twice',
    command({ options: [text(), text()] }),
    '0.options.1.name APPLICATION_COMMAND_OPTIONS_NAME_ALREADY_EXISTS',
  ],
  [
    'a required option last',
    command({ options: [text(), text({ name: 'b', required: true })] }),
    '0.options.1 APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID',
  ],
  [
    'choices beside autocomplete',
    withOption({ choices: choices(1), autocomplete: true }),
    '0.options.0.autocomplete APPLICATION_COMMAND_OPTIONS_CHOICES_AUTOCOMPLETE',
  ],
  ['26 choices', withOption({ choices: choices(26) }), '0.options.0.choices BASE_TYPE_BAD_LENGTH'],
  [
    'a choice value of 101',
    withOption({ choices: [{ name: 'n', value: x(101) }] }),
    '0.options.0.choices.0.value BASE_TYPE_BAD_LENGTH',
  ],
  [
    'a choice twice',
    withOption({ choices: [...choices(1), ...choices(1)] }),
    '0.options.0.choices.1.name APPLICATION_COMMAND_OPTIONS_CHOICE_DUPLICATE',
  ],
  ['max_length of 6001', withOption({ max_length: 6001 }), '0.options.0.max_length NUMBER_TYPE_MAX'],
  [
    'min_length over max_length',
    withOption({ min_length: 5, max_length: 4 }),
    '0.options.0.min_length NUMBER_TYPE_MAX',
  ],
  [
    '11 file types',
    withOption({ type: O.Attachment, file_types: many(11, (i) => `.a${i}`) }),
    '0.options.0.file_types BASE_TYPE_BAD_LENGTH',
  ],
  [
    'an odd file type',
    withOption({ type: O.Attachment, file_types: ['pictures'] }),
    '0.options.0.file_types.0 STRING_TYPE_REGEX',
  ],
  ['an unknown option type', withOption({ type: 12 }), '0.options.0.type BASE_TYPE_CHOICES'],
  [
    'a group in a subcommand',
    command({ options: [subcommand({ options: [group()] })] }),
    '0.options.0.options.0.type BASE_TYPE_CHOICES',
  ],
  [
    'subcommands beside options',
    command({ options: [subcommand(), text()] }),
    '0.options APPLICATION_COMMAND_OPTIONS_TYPE_INVALID',
  ],
  [
    'an unknown locale',
    command({ name_localizations: { xx: 'a' } }),
    '0.name_localizations.xx BASE_TYPE_CHOICES',
  ],
  [
    'a localized description of 101',
    command({ description_localizations: { de: x(101) } }),
    '0.description_localizations.de BASE_TYPE_BAD_LENGTH',
  ],
  [
    'permissions in words',
    command({ default_member_permissions: 'ManageGuild' }),
    '0.default_member_permissions NUMBER_TYPE_COERCE',
  ],
  ['an unknown context', command({ contexts: [3] }), '0.contexts.0 BASE_TYPE_CHOICES'],
  ['more than 8000 characters', bulky, '0 APPLICATION_COMMAND_TOO_LARGE'],
]

const global = () => `/applications/${discord.applicationId}/commands`
const ofGuild = () =>
  `/applications/${discord.applicationId}/guilds/${discord.world.guild(undefined).id}/commands`

test.each(refusedRows)('a command with %s is refused', async (_rule, body, error) => {
  expect(await call(discord, 'PUT', global(), [body])).toEqual({
    status: 400,
    code: 50035,
    errors: expect.arrayContaining([error]),
  })
})

test('the names of one overwrite are unlike, and at most 100 of a type', async () => {
  expect(await call(discord, 'PUT', global(), [command(), command()])).toMatchObject({
    errors: ['1.name APPLICATION_COMMANDS_DUPLICATE_NAME'],
  })
  const tooMany = many(101, (i) => command({ name: `c${i}` }))
  expect(await call(discord, 'PUT', global(), tooMany)).toMatchObject({ errors: ['BASE_TYPE_MAX_LENGTH'] })
})

test('contexts belong to global commands only', async () => {
  expect(await call(discord, 'PUT', global(), [command({ contexts: [0, 1] })])).toMatchObject({ status: 200 })
  expect(await call(discord, 'PUT', ofGuild(), [command({ contexts: [0, 1] })])).toMatchObject({
    errors: ['0.contexts APPLICATION_COMMAND_GUILD_FIELD'],
  })
})

test.each([
  [
    '25 options of 25 choices',
    command({ options: many(25, (i) => text({ name: `o${i}`, choices: choices(25) })) }),
  ],
  ['letters of other scripts', command({ name: 'мешать-好' })],
  [
    'groups of subcommands',
    command({ options: [group(subcommand({ options: [text({ required: true }), text({ name: 'b' })] }))] }),
  ],
  ['permissions as text', command({ default_member_permissions: '32' })],
])('a command with %s is accepted', async (_what, body) => {
  expect(await call(discord, 'PUT', global(), [body])).toMatchObject({ status: 200 })
})

test('the longest localization counts toward the 8000', () => {
  const plain = { name: 'mix', description: 'four' }
  expect(commandLength(plain)).toBe(7)
  expect(commandLength({ ...plain, description_localizations: { de: 'sechzehn Zeichen' } })).toBe(19)
  expect(
    commandLength({
      ...plain,
      options: [{ name: 'ab', description: 'c', choices: [{ name: 'd', value: 'ef' }] }],
    }),
  ).toBe(13)
})

test('200 new names a day and no more: 30034', async () => {
  const fresh = await startDiscord()
  const path = `/applications/${fresh.applicationId}/commands`
  for (const round of [1, 2])
    await call(
      fresh,
      'PUT',
      path,
      many(100, (i) => command({ name: `r${round}-${i}` })),
    )
  expect(await call(fresh, 'POST', path, command())).toMatchObject({ status: 400, code: 30034 })
  fresh.clock.advance(25 * 60 * 60 * 1000)
  expect(await call(fresh, 'POST', path, command())).toMatchObject({ status: 201 })
  await fresh.stop()
})

test('single commands can be changed and removed', async () => {
  await call(discord, 'PUT', global(), [command()])
  const id = discord.platform.commands.list('')[0]?.id
  expect(await call(discord, 'PATCH', `${global()}/${id}`, { name: 'pour' })).toMatchObject({ status: 200 })
  expect(discord.platform.commands.list('').map((each) => [each.id, each.name])).toEqual([[id, 'pour']])
  expect(await call(discord, 'PATCH', `${global()}/${id}`, { name: 'Pour' })).toMatchObject({ code: 50035 })
  expect(await call(discord, 'DELETE', `${global()}/${id}`, {})).toMatchObject({ status: 204 })
  expect(await call(discord, 'DELETE', `${global()}/${id}`, {})).toMatchObject({ status: 404, code: 10063 })
})
