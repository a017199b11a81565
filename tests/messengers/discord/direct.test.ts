import { expect, test } from 'vitest'
import { crewKeyOf } from '#src/messengers/discord/crews.ts'
import { startRig } from './rig.ts'
import { buttonIn, buttonsOf, isPrivate, menuOf, textOf } from './seen.ts'

const twoGuilds = {
  users: [{ name: 'demo.lead' }, { name: 'demo.crew' }],
  guilds: ['North', 'South'].map((name) => ({
    name: `Demo ${name}`,
    channels: [{ name: `field-${name.toLowerCase()}` }],
    members: [{ user: 'demo.lead' }, { user: 'demo.crew' }],
  })),
}

const crewsIn = (guilds: readonly { id: string; name: string }[]) => async () =>
  guilds.map(({ id, name }) => ({ key: crewKeyOf(id), name }))

test('a direct message belongs to the one crew of its person, and is not private', async () => {
  let crews: { key: string; name: string }[] = []
  const { platform, database } = await startRig({ adapter: { crewsOf: async () => crews } })
  crews = [{ key: crewKeyOf(platform.world.guild(undefined).id), name: 'Demo Grounds' }]
  const question = await platform.slash({ name: 'ask', user: 'demo.crew', dm: true }).message()
  expect(isPrivate(question)).toBe(false)
  expect(buttonsOf(question)[0]?.customId).toMatch(/^s1\.1\.1!q@\d+$/)
  const answer = await platform.press({ message: question, customId: buttonIn(question, 'One') }).message()
  expect(textOf(answer)).toContain('# Chosen: one')
  const rows = await database.db.selectFrom('crews').select('key').execute()
  expect(rows.map((row) => row.key)).toEqual([crews[0]?.key])
  platform.assertClean()
})

test('with two crews it is asked which, once, and the request goes on', async () => {
  let crews: { key: string; name: string }[] = []
  const rig = await startRig({ world: twoGuilds, adapter: { crewsOf: async () => crews } })
  const { platform } = rig
  crews = await crewsIn([...platform.world.guilds.values()])()
  const asked = await platform
    .slash({ name: 'echo', user: 'demo.crew', dm: true, options: { words: 'x' } })
    .message()
  expect(textOf(asked)).toBe('Which crew is this about?')
  const menu = menuOf(asked)
  expect(menu.labels).toEqual(['Demo North', 'Demo South'])
  const answer = await platform
    .select({ message: asked, customId: menu.customId, values: [menu.values[1] ?? ''] })
    .message()
  expect(textOf(answer)).toContain('# 2 gal for x')
  const next = await platform
    .slash({ name: 'echo', user: 'demo.crew', dm: true, options: { words: 'y' } })
    .message()
  expect(textOf(next)).toContain('# 2 gal for y')
  platform.assertClean()
})

test('a button in a direct message keeps its crew over a restart, and dies with the membership', async () => {
  let crews: { key: string; name: string }[] = []
  const rig = await startRig({ world: twoGuilds, adapter: { crewsOf: async () => crews } })
  const { platform } = rig
  crews = await crewsIn([...platform.world.guilds.values()])()
  const asked = await platform.slash({ name: 'ask', user: 'demo.crew', dm: true }).message()
  const menu = menuOf(asked)
  const question = await platform
    .select({ message: asked, customId: menu.customId, values: [menu.values[1] ?? ''] })
    .message()
  await rig.restart()
  const answer = await platform.press({ message: question, customId: buttonIn(question, 'One') }).message()
  expect(textOf(answer)).toContain('# Chosen: one')
  crews = crews.slice(0, 1)
  const refused = await platform.press({ message: answer, customId: buttonIn(answer, 'Poured') }).message()
  expect(textOf(refused)).toContain('not on a crew')
  platform.assertClean()
})

test('somebody without a crew is told where to begin', async () => {
  const { platform, turns } = await startRig()
  const message = await platform
    .slash({ name: 'echo', user: 'demo.stranger', dm: true, options: { words: 'x' } })
    .message()
  expect(textOf(message)).toContain('Send a command in your crew’s server first')
  expect(await turns()).toBe(0)
  platform.assertClean()
})

test('suggestions are cut to what the platform takes, and nothing is written', async () => {
  const { platform, turns } = await startRig({
    suggest: async ({ typed, option, command, by }) =>
      Array.from({ length: 40 }, (_, n) => ({
        name: `${command} ${option} ${typed} ${n} ${by.personName} ${'long '.repeat(30)}`,
        value: n === 3 ? 'v'.repeat(101) : `v${n}`,
      })),
  })
  const fired = platform.autocomplete({
    name: 'echo',
    user: 'demo.crew',
    channel: 'field',
    options: { words: 'fro' },
    focused: 'words',
  })
  const { data } = await fired.firstResponse()
  const choices = data.choices as { name: string; value: string }[]
  expect(choices).toHaveLength(25)
  expect(choices[0]?.name).toContain('echo words fro 0')
  expect(choices.map((one) => one.value)).not.toContain('v'.repeat(101))
  expect(await turns()).toBe(0)
  platform.assertClean()
})

test('suggestions that fail are an empty list', async () => {
  const { platform, lines } = await startRig({
    suggest: async () => {
      throw new Error('no book')
    },
  })
  const fired = platform.autocomplete({
    name: 'echo',
    user: 'demo.crew',
    channel: 'field',
    options: { words: '' },
    focused: 'words',
  })
  expect((await fired.firstResponse()).data).toEqual({ choices: [] })
  expect(lines.filter((line) => line.level === 'error')).toHaveLength(1)
})
