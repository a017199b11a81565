import { expect, test } from 'vitest'
import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { type Command, defineCommand } from '#src/desk/command.ts'
import { registryOf } from '#src/desk/registry.ts'
import { defineAll, RegistrationError } from '#src/messengers/discord/definitions.ts'
import { OptionError } from '#src/messengers/option-shapes.ts'
import { drawsNothing } from './draws.ts'
import { startRig, words } from './rig.ts'
import { toyRegistry } from './toys.ts'

const command = (name: string, options: z.ZodObject): Command =>
  defineCommand({
    name,
    options,
    may: 'crew',
    start: async () => ({ reply: reply('answer', say('toy.line')) }),
  })

const PUT = { method: 'PUT', route: '/applications/{application_id}/commands' }

test('commands are registered in one call, and not again while they are the same', async () => {
  const rig = await startRig()
  expect(rig.platform.requestsTo(PUT)).toHaveLength(1)
  await rig.restart()
  expect(rig.platform.requestsTo(PUT)).toHaveLength(1)
  rig.platform.assertClean()
  expect(rig.platform.warnings).toEqual([])
})

test('a change is registered at the next start', async () => {
  const rig = await startRig()
  const other = registryOf([command('echo', z.strictObject({ words: z.string() }))])
  const { startDiscord } = await import('#tests/helpers/start-discord.ts')
  await rig.discord.stop()
  const log = { debug() {}, info() {}, warn() {}, error() {} }
  const changed = await startDiscord({
    token: rig.platform.token,
    api: rig.platform.api,
    desk: { answer: async () => Promise.reject(new Error('not asked')), recall: async () => null },
    registry: other,
    define: () => defineAll(other, words),
    words,
    suggest: async () => [],
    crewsOf: async () => [],
    draw: drawsNothing('not asked'),
    log,
  })
  await changed.stop()
  expect(rig.platform.requestsTo(PUT)).toHaveLength(2)
  expect(rig.platform.platform.commands.list('').map((one) => one.name)).toEqual(['echo'])
})

test('names, descriptions and kinds of options come from schema and catalogue', () => {
  const all = defineAll(toyRegistry, words)
  expect(all.find((one) => one.name === 'echo')).toEqual({
    type: 1,
    name: 'echo',
    name_localizations: { 'es-ES': 'eco', 'es-419': 'eco' },
    description: 'Says it back',
    description_localizations: { 'es-ES': 'Lo repite', 'es-419': 'Lo repite' },
    options: [
      expect.objectContaining({
        name: 'words',
        name_localizations: { 'es-ES': 'palabras', 'es-419': 'palabras' },
        description: 'What to say',
        type: 3,
        required: true,
        autocomplete: true,
        max_length: 1000,
      }),
      expect.objectContaining({
        name: 'kind',
        type: 3,
        required: false,
        choices: [expect.objectContaining({ value: 'dry' }), expect.objectContaining({ value: 'wet' })],
      }),
      expect.objectContaining({ name: 'count', type: 4, min_value: 1, max_value: 9 }),
    ],
    default_member_permissions: null,
    contexts: [0, 1],
    integration_types: [0],
    nsfw: false,
  })
  const note = all.find((one) => one.name === 'note')
  expect(note).toMatchObject({
    description: 'Notes',
    options: [
      { type: 1, name: 'add' },
      { type: 1, name: 'list' },
    ],
  })
  expect(all.find((one) => one.name === 'photo')).toMatchObject({ options: [{ type: 11, name: 'picture' }] })
})

const thirty = Object.fromEntries(Array.from({ length: 30 }, (_, n) => [`o${n}`, z.string()]))
test.each([
  ['a name with a capital', [command('Echo', z.strictObject({}))]],
  ['three words', [command('a b c', z.strictObject({}))]],
  ['thirty options', [command('a', z.strictObject(thirty))]],
  [
    'a command beside its own subcommands',
    [command('a', z.strictObject({})), command('a b', z.strictObject({}))],
  ],
  ['twenty-six subcommands', Array.from({ length: 26 }, (_, n) => command(`a s${n}`, z.strictObject({})))],
  ['a hundred and one commands', Array.from({ length: 101 }, (_, n) => command(`c${n}`, z.strictObject({})))],
  ['a choice of 101 characters', [command('a', z.strictObject({ o: z.enum(['x'.repeat(101)]) }))]],
])('%s stops the start with a list of what to mend', (_, commands) => {
  expect(() => defineAll(registryOf(commands), words)).toThrow(RegistrationError)
})

test('an option of a kind that the platform does not have stops the start', () => {
  expect(() => defineAll(registryOf([command('a', z.strictObject({ o: z.date() }))]), words)).toThrow(
    OptionError,
  )
})

test('a refused registration leaves the bot running on what was registered before', async () => {
  const rig = await startRig()
  rig.platform.faults.answer(
    { method: 'GET', route: '/applications/{application_id}/commands' },
    { status: 403, body: { code: 50001, message: 'Missing Access' } },
  )
  await rig.restart()
  await rig.platform.slash({ name: 'ask', user: 'demo.crew', channel: 'field' }).message()
  expect(rig.lines.map((line) => line.message)).toContain('commands could not be registered')
})
