import { ComponentType as C, MessageFlags } from 'discord-api-types/v10'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type DiscordStandIn, startDiscord } from './index.ts'
import { answer, call } from './testing/caller.ts'

/**
 * Limits: Discord developer docs, resources/message and components/reference. Codes of single fields are from
 * memory. Each row stands just over its limit; the rows of the second table stand just on it.
 */
let discord: DiscordStandIn
beforeAll(async () => {
  discord = await startDiscord({ unregistered: 'guess' })
})
afterAll(() => discord.stop())

const x = (n: number) => 'x'.repeat(n)
const many = <T>(n: number, make: (i: number) => T) => Array.from({ length: n }, (_, i) => make(i))
const button = (i: number | string = 0) => ({ type: C.Button, style: 1, label: 'b', custom_id: `b${i}` })
const link = { type: C.Button, style: 5, label: 'l', url: 'https://example.test' }
const row = (...components: object[]) => ({ type: C.ActionRow, components })
const option = (i: number) => ({ label: `o${i}`, value: `v${i}` })
const menu = (extra: object) => ({ type: C.StringSelect, custom_id: 's', options: [option(1)], ...extra })
const withMenu = (extra: object) => ({ content: 'x', components: [row(menu(extra))] })
const embed = (extra: object) => ({ embeds: [extra] })
const V2 = { flags: MessageFlags.IsComponentsV2 }
const display = (content: string) => ({ type: C.TextDisplay, content })
const v2 = (...components: object[]) => ({ ...V2, components })
const section = (texts: number, accessory: object | undefined = link) => ({
  type: C.Section,
  components: many(texts, () => display('t')),
  ...(accessory === undefined ? {} : { accessory }),
})

const refusedRows: [rule: string, data: object, error: string][] = [
  ['content of 2001', { content: x(2001) }, 'data.content BASE_TYPE_MAX_LENGTH'],
  ['11 embeds', { embeds: many(11, () => ({ title: 't' })) }, 'data.embeds BASE_TYPE_BAD_LENGTH'],
  ['embed title of 257', embed({ title: x(257) }), 'data.embeds.0.title BASE_TYPE_MAX_LENGTH'],
  [
    'embed description of 4097',
    embed({ description: x(4097) }),
    'data.embeds.0.description BASE_TYPE_MAX_LENGTH',
  ],
  [
    '26 embed fields',
    embed({ fields: many(26, () => ({ name: 'n', value: 'v' })) }),
    'data.embeds.0.fields BASE_TYPE_BAD_LENGTH',
  ],
  [
    'field name of 257',
    embed({ fields: [{ name: x(257), value: 'v' }] }),
    'data.embeds.0.fields.0.name BASE_TYPE_BAD_LENGTH',
  ],
  [
    'field value of 1025',
    embed({ fields: [{ name: 'n', value: x(1025) }] }),
    'data.embeds.0.fields.0.value BASE_TYPE_BAD_LENGTH',
  ],
  [
    'empty field value',
    embed({ fields: [{ name: 'n', value: '' }] }),
    'data.embeds.0.fields.0.value BASE_TYPE_REQUIRED',
  ],
  [
    'blank field value',
    embed({ fields: [{ name: 'n', value: '  ' }] }),
    'data.embeds.0.fields.0.value BASE_TYPE_REQUIRED',
  ],
  ['footer of 2049', embed({ footer: { text: x(2049) } }), 'data.embeds.0.footer.text BASE_TYPE_BAD_LENGTH'],
  ['author of 257', embed({ author: { name: x(257) } }), 'data.embeds.0.author.name BASE_TYPE_BAD_LENGTH'],
  ['an empty embed', embed({}), 'data.embeds.0.description BASE_TYPE_REQUIRED'],
  ['a color over 0xFFFFFF', embed({ title: 't', color: 0x1000000 }), 'data.embeds.0.color NUMBER_TYPE_MAX'],
  [
    'a timestamp that is none',
    embed({ title: 't', timestamp: 'soon' }),
    'data.embeds.0.timestamp DATE_TIME_TYPE_PARSE',
  ],
  [
    'embeds of 6001 in sum',
    { embeds: [{ description: x(3000) }, { description: x(3001) }] },
    'data.embeds.1 MAX_EMBED_SIZE_EXCEEDED',
  ],
  [
    'a picture that was not sent',
    embed({ image: { url: 'attachment://a.png' } }),
    'data.embeds.0.image.url UNFURLED_MEDIA_ITEM_REFERENCED_ATTACHMENT_NOT_FOUND',
  ],
  [
    'a link without scheme',
    embed({ title: 't', url: 'example' }),
    'data.embeds.0.url URL_TYPE_INVALID_SCHEME',
  ],
  [
    '6 rows',
    { content: 'x', components: many(6, (i) => row(button(i))) },
    'data.components BASE_TYPE_BAD_LENGTH',
  ],
  [
    '6 buttons in a row',
    { content: 'x', components: [row(...many(6, button))] },
    'data.components.0.components BASE_TYPE_BAD_LENGTH',
  ],
  [
    'an empty row',
    { content: 'x', components: [row()] },
    'data.components.0.components BASE_TYPE_BAD_LENGTH',
  ],
  [
    'a menu beside a button',
    { content: 'x', components: [row(menu({}), button())] },
    'data.components.0.components COMPONENT_LAYOUT_WIDTH_EXCEEDED',
  ],
  [
    'a custom id twice',
    { content: 'x', components: [row(button(1)), row(button(1))] },
    'data.components.1.components.0.custom_id COMPONENT_CUSTOM_ID_DUPLICATED',
  ],
  [
    'custom id of 101',
    { content: 'x', components: [row(button(x(100)))] },
    'data.components.0.components.0.custom_id BASE_TYPE_BAD_LENGTH',
  ],
  [
    'label of 81',
    { content: 'x', components: [row({ ...button(), label: x(81) })] },
    'data.components.0.components.0.label BASE_TYPE_MAX_LENGTH',
  ],
  [
    'a button without label or emoji',
    { content: 'x', components: [row({ ...button(), label: undefined })] },
    'data.components.0.components.0.label BASE_TYPE_REQUIRED',
  ],
  [
    'a button without custom id',
    { content: 'x', components: [row({ ...button(), custom_id: undefined })] },
    'data.components.0.components.0.custom_id BASE_TYPE_REQUIRED',
  ],
  [
    'a link button with custom id',
    { content: 'x', components: [row({ ...link, custom_id: 'a' })] },
    'data.components.0.components.0.custom_id BUTTON_COMPONENT_FIELD_NOT_ALLOWED',
  ],
  [
    'url of 513',
    { content: 'x', components: [row({ ...link, url: `https://example.test/${x(492)}` })] },
    'data.components.0.components.0.url BASE_TYPE_BAD_LENGTH',
  ],
  [
    'an emoji that is none',
    { content: 'x', components: [row({ ...button(), emoji: { name: 'x' } })] },
    'data.components.0.components.0.emoji.name COMPONENT_INVALID_EMOJI',
  ],
  [
    'a menu without options',
    withMenu({ options: [] }),
    'data.components.0.components.0.options BASE_TYPE_BAD_LENGTH',
  ],
  [
    '26 menu options',
    withMenu({ options: many(26, option) }),
    'data.components.0.components.0.options BASE_TYPE_BAD_LENGTH',
  ],
  [
    'option label of 101',
    withMenu({ options: [{ ...option(1), label: x(101) }] }),
    'data.components.0.components.0.options.0.label BASE_TYPE_BAD_LENGTH',
  ],
  [
    'option value of 101',
    withMenu({ options: [{ ...option(1), value: x(101) }] }),
    'data.components.0.components.0.options.0.value BASE_TYPE_BAD_LENGTH',
  ],
  [
    'option description of 101',
    withMenu({ options: [{ ...option(1), description: x(101) }] }),
    'data.components.0.components.0.options.0.description BASE_TYPE_MAX_LENGTH',
  ],
  [
    'an option value twice',
    withMenu({ options: [option(1), option(1)] }),
    'data.components.0.components.0.options.1.value SELECT_COMPONENT_OPTION_VALUE_DUPLICATED',
  ],
  [
    'placeholder of 151',
    withMenu({ placeholder: x(151) }),
    'data.components.0.components.0.placeholder BASE_TYPE_MAX_LENGTH',
  ],
  [
    'max_values over 25',
    withMenu({ max_values: 26 }),
    'data.components.0.components.0.max_values NUMBER_TYPE_MAX',
  ],
  [
    'min_values over max_values',
    withMenu({ options: [option(1), option(2)], min_values: 2, max_values: 1 }),
    'data.components.0.components.0.min_values SELECT_MIN_ABOVE_MAX',
  ],
  [
    'a text display without the V2 flag',
    { components: [display('t')] },
    'data.components.0.type BASE_TYPE_CHOICES',
  ],
  [
    'V2 with content',
    { ...v2(display('t')), content: 'x' },
    'data.content MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2',
  ],
  [
    'V2 with embeds',
    { ...v2(display('t')), embeds: [{ title: 't' }] },
    'data.embeds MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2',
  ],
  [
    '41 components nested',
    v2({ type: C.Container, components: many(40, () => display('t')) }),
    'data.components COMPONENT_MAX_TOTAL_COMPONENTS_EXCEEDED',
  ],
  [
    '4001 characters of text in all',
    v2(display(x(2000)), display(x(2001))),
    'data.components COMPONENT_DISPLAYABLE_TEXT_SIZE_EXCEEDED',
  ],
  ['an empty text display', v2(display('')), 'data.components.0.content BASE_TYPE_REQUIRED'],
  ['a section of 4 texts', v2(section(4)), 'data.components.0.components BASE_TYPE_BAD_LENGTH'],
  [
    'a section without accessory',
    v2({ type: C.Section, components: [display('t')] }),
    'data.components.0.accessory BASE_TYPE_REQUIRED',
  ],
  [
    '11 pictures in a gallery',
    v2({ type: C.MediaGallery, items: many(11, () => ({ media: { url: 'https://example.test/a.png' } })) }),
    'data.components.0.items BASE_TYPE_BAD_LENGTH',
  ],
  [
    'a file by web link',
    v2({ type: C.File, file: { url: 'https://example.test/a.pdf' } }),
    'data.components.0.file.url URL_TYPE_INVALID_SCHEME',
  ],
  [
    'a container in a container',
    v2({ type: C.Container, components: [{ type: C.Container, components: [display('t')] }] }),
    'data.components.0.components.0.type BASE_TYPE_CHOICES',
  ],
  [
    'an unknown kind of mention',
    { content: 'x', allowed_mentions: { parse: ['cats'] } },
    'data.allowed_mentions.parse.0 BASE_TYPE_CHOICES',
  ],
  [
    'users allowed twice over',
    { content: 'x', allowed_mentions: { parse: ['users'], users: ['175928847299117063'] } },
    'data.allowed_mentions.parse MESSAGE_ALLOWED_MENTIONS_PARSE_EXCLUSIVE',
  ],
  ['a flag that cannot be set', { content: 'x', flags: 1 }, 'data.flags MESSAGE_FLAGS_INVALID'],
  [
    'an attachment without its file',
    { content: 'x', attachments: [{ id: '0' }] },
    'data.attachments.0.id ATTACHMENT_NOT_FOUND',
  ],
]

test.each(refusedRows)('a reply with %s is refused', async (_rule, data, error) => {
  expect(await answer(discord, { type: 4, data })).toEqual({
    status: 400,
    code: 50035,
    errors: expect.arrayContaining([error]),
  })
})

const acceptedRows: [what: string, data: object][] = [
  ['content of 2000', { content: x(2000) }],
  ['embeds of 6000 in sum', { embeds: [{ description: x(3000) }, { description: x(3000) }] }],
  [
    '10 embeds of 25 fields',
    { embeds: many(10, () => ({ fields: many(25, () => ({ name: 'n', value: 'v' })) })) },
  ],
  [
    '5 rows of 5 buttons',
    { content: 'x', components: many(5, (r) => row(...many(5, (i) => button(`${r}-${i}`)))) },
  ],
  ['25 options, several to choose', withMenu({ options: many(25, option), min_values: 0, max_values: 25 })],
  ['40 components nested', v2({ type: C.Container, components: many(39, () => display('t')) })],
  ['4000 characters of text in all', v2(display(x(2000)), display(x(2000)))],
  [
    'an emoji for a label',
    { content: 'x', components: [row({ type: C.Button, style: 2, custom_id: 'e', emoji: { name: '🌱' } })] },
  ],
  ['a section with a button', v2(section(3))],
  ['components alone', { components: [row(button())] }],
]

test.each(acceptedRows)('a reply with %s is accepted', async (_what, data) => {
  expect(await answer(discord, { type: 4, data })).toEqual({ status: 204, code: undefined, errors: [] })
})

test.each([{}, { content: '' }, { content: '  \n' }, { embeds: [] }, { ...V2, components: [] }])(
  'an empty reply %j is refused with 50006',
  async (data) => {
    expect(await answer(discord, { type: 4, data })).toMatchObject({ status: 400, code: 50006 })
  },
)

const path = () => `/channels/${discord.world.channel(discord.world.guild(undefined), 'field').id}/messages`

test.each([
  [
    'content of 2001, which the published schema lets pass',
    { content: x(2001) },
    'content BASE_TYPE_MAX_LENGTH',
  ],
  ['nonce of 26', { content: 'x', nonce: x(26) }, 'nonce BASE_TYPE_MAX_LENGTH'],
  ['the ephemeral flag', { content: 'x', flags: MessageFlags.Ephemeral }, 'flags MESSAGE_FLAGS_INVALID'],
])('a channel message with %s is refused', async (_rule, body, error) => {
  expect(await call(discord, 'POST', path(), body)).toEqual({ status: 400, code: 50035, errors: [error] })
})

test('a V2 message stays one: no content can be edited in', async () => {
  await call(discord, 'POST', path(), v2(display('t')))
  const { id } = discord.messagesIn('field').at(-1) ?? { id: '' }
  const verdict = await call(discord, 'PATCH', `${path()}/${id}`, { content: 'x' })
  expect(verdict.errors).toEqual(['content MESSAGE_CANNOT_USE_LEGACY_FIELDS_WITH_COMPONENTS_V2'])
})

test('an edit that leaves nothing is refused with 50006', async () => {
  await call(discord, 'POST', path(), { content: 'x' })
  const { id } = discord.messagesIn('field').at(-1) ?? { id: '' }
  expect(await call(discord, 'PATCH', `${path()}/${id}`, { content: null })).toMatchObject({ code: 50006 })
})

test('unknown fields are only warned of', async () => {
  const before = discord.warnings.length
  expect(await answer(discord, { type: 4, data: { content: 'x', colour: 'green' } })).toMatchObject({
    status: 204,
  })
  expect(discord.warnings.slice(before)).toEqual([
    expect.objectContaining({ path: 'data.colour', code: 'UNKNOWN_FIELD' }),
  ])
})

test('all breaches of one body are told together and remembered', async () => {
  const before = discord.violations.length
  const { errors } = await answer(discord, { type: 4, data: { content: x(2001), embeds: [{}] } })
  expect(errors).toHaveLength(2)
  expect(discord.violations.slice(before).map((each) => each.path)).toEqual([
    'data.content',
    'data.embeds.0.description',
  ])
  expect(() => discord.assertClean()).toThrow('data.content BASE_TYPE_MAX_LENGTH')
})
