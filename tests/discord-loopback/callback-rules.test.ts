import { ComponentType as C, InteractionType, MessageFlags } from 'discord-api-types/v10'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type DiscordStandIn, startDiscord } from './index.ts'
import { answer, call } from './testing/caller.ts'

/** Limits: Discord developer docs, interactions/receiving-and-responding and components/reference. */
let discord: DiscordStandIn
beforeAll(async () => {
  discord = await startDiscord({ unregistered: 'guess' })
})
afterAll(() => discord.stop())

const x = (n: number) => 'x'.repeat(n)
const many = <T>(n: number, make: (i: number) => T) => Array.from({ length: n }, (_, i) => make(i))
const input = (extra: object = {}) => ({ type: C.TextInput, custom_id: 't', style: 1, ...extra })
const label = (component: object, extra: object = {}) => ({ type: C.Label, label: 'l', component, ...extra })
const modal = (extra: object = {}) => ({ custom_id: 'm', title: 'm', components: [label(input())], ...extra })
const withChild = (component: object) => modal({ components: [label(component)] })
const radio = (n: number) => ({
  type: C.RadioGroup,
  custom_id: 'r',
  options: many(n, (i) => ({ label: `${i}`, value: `${i}` })),
})
const upload = (extra: object) => ({ type: C.FileUpload, custom_id: 'f', ...extra })
const child = 'data.components.0.component'

const refusedModals: [rule: string, data: object, error: string][] = [
  ['title of 46', modal({ title: x(46) }), 'data.title BASE_TYPE_BAD_LENGTH'],
  ['custom id of 101', modal({ custom_id: x(101) }), 'data.custom_id BASE_TYPE_BAD_LENGTH'],
  ['no components', modal({ components: [] }), 'data.components BASE_TYPE_BAD_LENGTH'],
  [
    '6 components',
    modal({ components: many(6, (i) => label(input({ custom_id: `${i}` }))) }),
    'data.components BASE_TYPE_BAD_LENGTH',
  ],
  [
    'a custom id twice',
    modal({ components: [label(input()), label(input())] }),
    'data.components.1.component.custom_id COMPONENT_CUSTOM_ID_DUPLICATED',
  ],
  [
    'label of 46',
    modal({ components: [label(input(), { label: x(46) })] }),
    'data.components.0.label BASE_TYPE_BAD_LENGTH',
  ],
  [
    'description of 101',
    modal({ components: [label(input(), { description: x(101) })] }),
    'data.components.0.description BASE_TYPE_MAX_LENGTH',
  ],
  [
    'placeholder of 101',
    withChild(input({ placeholder: x(101) })),
    `${child}.placeholder BASE_TYPE_MAX_LENGTH`,
  ],
  ['value of 4001', withChild(input({ value: x(4001) })), `${child}.value BASE_TYPE_MAX_LENGTH`],
  ['max_length of 4001', withChild(input({ max_length: 4001 })), `${child}.max_length NUMBER_TYPE_MAX`],
  [
    'min_length over max_length',
    withChild(input({ min_length: 9, max_length: 3 })),
    `${child}.min_length TEXT_INPUT_MIN_ABOVE_MAX`,
  ],
  [
    'a button in a label',
    withChild({ type: C.Button, style: 1, label: 'b', custom_id: 'b' }),
    `${child}.type BASE_TYPE_CHOICES`,
  ],
  ['a bare text input', modal({ components: [input()] }), 'data.components.0.type BASE_TYPE_CHOICES'],
  [
    'a disabled child',
    withChild({ type: C.UserSelect, custom_id: 'u', disabled: true }),
    `${child}.disabled COMPONENT_DISABLED_IN_MODAL`,
  ],
  ['a radio group of one', withChild(radio(1)), `${child}.options BASE_TYPE_BAD_LENGTH`],
  ['a radio group of 11', withChild(radio(11)), `${child}.options BASE_TYPE_BAD_LENGTH`],
  [
    'a checkbox group of 11',
    withChild({ ...radio(11), type: C.CheckboxGroup }),
    `${child}.options BASE_TYPE_BAD_LENGTH`,
  ],
  ['an upload of 11 files', withChild(upload({ max_values: 11 })), `${child}.max_values NUMBER_TYPE_MAX`],
  [
    'an upload of an odd file type',
    withChild(upload({ file_types: ['pictures'] })),
    `${child}.file_types.0 STRING_TYPE_REGEX`,
  ],
  [
    'min_values 0 though required',
    withChild(upload({ min_values: 0 })),
    `${child}.min_values MIN_VALUES_NEEDS_OPTIONAL`,
  ],
]

test.each(refusedModals)('a modal with %s is refused', async (_rule, data, error) => {
  expect(await answer(discord, { type: 9, data })).toEqual({
    status: 400,
    code: 50035,
    errors: expect.arrayContaining([error]),
  })
})

test.each([
  ['5 labels', modal({ components: many(5, (i) => label(input({ custom_id: `${i}` }))) })],
  [
    'a text between',
    modal({ components: [{ type: C.TextDisplay, content: 'Read the label' }, label(input())] }),
  ],
  ['a radio group of 10', withChild(radio(10))],
  [
    'an upload that may stay empty',
    withChild(upload({ min_values: 0, max_values: 10, required: false, file_types: ['image', '.pdf'] })),
  ],
])('a modal with %s is accepted', async (_what, data) => {
  expect(await answer(discord, { type: 9, data })).toMatchObject({ status: 204 })
})

test('an action row in a modal is deprecated', async () => {
  const row = { type: C.ActionRow, components: [input({ label: 'l' })] }
  expect(await answer(discord, { type: 9, data: modal({ components: [row] }) })).toMatchObject({
    status: 204,
  })
  expect(discord.warnings.at(-1)).toMatchObject({ code: 'DEPRECATED' })
})

const { ApplicationCommand: Slash, ApplicationCommandAutocomplete: Typing } = InteractionType

test.each([
  ['suggestions for a command', Slash, { type: 8, data: { choices: [] } }],
  ['a message for suggestions', Typing, { type: 4, data: { content: 'x' } }],
  ['a modal for suggestions', Typing, { type: 9, data: modal() }],
  ['a deferral for suggestions', Typing, { type: 5 }],
  ['an update without a message', Slash, { type: 7, data: { content: 'x' } }],
  ['a deferred update without a message', Slash, { type: 6 }],
  ['a pong', Slash, { type: 1 }],
  ['an unknown type', Slash, { type: 99 }],
])('%s is refused', async (_what, type, body) => {
  expect(await answer(discord, body, type)).toEqual({
    status: 400,
    code: 50035,
    errors: ['type BASE_TYPE_CHOICES'],
  })
})

const choice = (name: string, value: unknown) => ({ choices: [{ name, value }] })

test.each([
  [
    '26 choices',
    { choices: many(26, (i) => ({ name: `${i}`, value: `${i}` })) },
    'data.choices BASE_TYPE_BAD_LENGTH',
  ],
  ['a choice name of 101', choice(x(101), 'v'), 'data.choices.0.name BASE_TYPE_BAD_LENGTH'],
  ['a choice without name', choice('', 'v'), 'data.choices.0.name BASE_TYPE_REQUIRED'],
  ['a choice value of 101', choice('n', x(101)), 'data.choices.0.value BASE_TYPE_BAD_LENGTH'],
  ['a number for a text option', choice('n', 4), 'data.choices.0.value BASE_TYPE_BAD_TYPE'],
])('suggestions with %s are refused', async (_rule, data, error) => {
  expect(await answer(discord, { type: 8, data }, Typing)).toEqual({
    status: 400,
    code: 50035,
    errors: [error],
  })
})

test('no suggestions, and 25 of them, are accepted', async () => {
  const all = many(25, (i) => ({ name: `${i}`, value: `${i}` }))
  for (const choices of [[], all])
    expect(await answer(discord, { type: 8, data: { choices } }, Typing)).toMatchObject({ status: 204 })
})

test.each([
  [0, 204],
  [MessageFlags.Ephemeral, 204],
  [MessageFlags.IsComponentsV2, 400],
  [MessageFlags.SuppressEmbeds, 400],
])('a deferral with flags %d gives %d', async (flags, status) => {
  expect(await answer(discord, { type: 5, data: { flags } })).toMatchObject({ status })
})

test('a modal cannot answer a modal, nor come after a deferral', async () => {
  const opened = discord.slash({ name: 'demo' })
  const path = (fired: typeof opened) => `/interactions/${fired.id}/${fired.record.token}/callback`
  await call(discord, 'POST', path(opened), { type: 9, data: modal() })
  const submitted = discord.submitModal({ from: opened, fields: { t: 'x' } })
  expect(await call(discord, 'POST', path(submitted), { type: 9, data: modal() })).toMatchObject({
    code: 50035,
  })
  const deferred = discord.slash({ name: 'demo' })
  await call(discord, 'POST', path(deferred), { type: 5 })
  expect(await call(discord, 'POST', path(deferred), { type: 9, data: modal() })).toMatchObject({
    code: 40060,
  })
})
