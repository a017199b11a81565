import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import { write } from '#src/store/transaction.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { openRoom, type TestRoom } from '#tests/helpers/room.ts'

const typed = defineCommand({
  name: 'typed',
  may: 'crew',
  options: z.strictObject({
    count: z
      .int()
      .optional()
      .meta({ aliases: ['how_many'] }),
    yes: z.boolean().optional(),
    words: z.string().optional(),
  }),
  start: async (options) => ({
    reply: reply('answer', asTyped(JSON.stringify(options)), {
      choices: [{ label: asTyped('again'), to: { step: 'again' }, repeat: true }],
      files: [{ name: 'x.png', alt: asTyped('x'), from: { picture: 'no-such-picture', data: {} } }],
    }),
  }),
  next: async () => ({ reply: reply('answer', asTyped('pressed')) }),
})
const open = () => openRoom({ commands: [typed] })

describe('what is typed reaches the command as what it wants', () => {
  test.each([
    ['/typed count:3', { count: 3 }],
    ['/typed how_many:3 words:some words', { count: 3, words: 'some words' }],
    ['/typed yes:y', { yes: true }],
    ['/TYPED Yes:No', { yes: false }],
    ['/typed yes:sí', { yes: true }],
    ['/typed words:"3"', { words: '3' }],
  ])('%s', async (line, options) => {
    expect((await (await open()).ask(line)).title).toBe(JSON.stringify(options))
  })

  test.each(['/typed count:three', '/typed yes:maybe', '/typed constructor:x'])(
    '%s is refused with a sentence',
    async (line) => {
      expect(await (await open()).ask(line)).toMatchObject({ outcome: 'refusal', facts: {} })
    },
  )
})

describe('a line that cannot be read', () => {
  test.each([
    'mix',
    '> 1',
    '> 99',
    '= name:"x"',
    '/nothing like this',
    '/mix tank:"2 gal',
    '/mix 2 gal',
    '+ 8 lightyears',
    '\u0000\ud800',
    '😀',
    `/${'x'.repeat(30_000)}`,
  ])('%# is a numbered refusal with a safety line', async (line) => {
    const room = await open()
    expect(await room.ask(line)).toMatchObject({ outcome: 'refusal', number: '1', choices: [], files: [] })
    expect(room.errors).toEqual([])
  })

  test.each([
    'help, I got it in my eye',
    '/mix I got it in my eye',
    '/nothing note:"I got it in my eye"',
    '= I got it in my eye',
    '/mix tank:"2 gal I got it in my eye',
  ])('%j is heard all the same', async (line) => {
    expect(await (await open()).ask(line)).toMatchObject({ outcome: 'hold', title: 'Emergency' })
  })

  test('nothing at all is nothing', async () => {
    expect(await (await open()).type('   ')).toEqual([])
  })
})

test('whatever is typed, each line is answered by one object of the promised shape', async () => {
  const room = await open()
  const commands = [...room.bot.registry.keys()]
  const words = fc.oneof(
    fc.string({ maxLength: 30 }),
    fc.string({ unit: 'binary', maxLength: 30 }),
    fc.constantFrom('2 gal', '1/2', '0.5 oz wt/1000 ft2', '-1', 'NaN', '9'.repeat(60), '"', '\\'),
  )
  const option = fc
    .tuple(fc.constantFrom('rate', 'tank', 'output', 'site', 'name', 'count', 'constructor'), words)
    .map(([name, value]) => `${name}:${JSON.stringify(value)}`)
  const line = fc.oneof(
    words,
    words.map((text) => `= name:${text}`),
    fc
      .tuple(fc.constantFrom(...commands), fc.array(option, { maxLength: 4 }))
      .map(([command, options]) => `/${command} ${options.join(' ')}`),
    fc.integer({ min: 0, max: 30 }).map((n) => `> ${n}`),
  )
  await fc.assert(
    fc.asyncProperty(
      // Readline takes lines apart before the room sees them.
      line.filter((text) => text.trim() !== '' && !text.trim().startsWith('+')),
      async (text) => {
        const shown = await room.type(text)
        expect(shown).toHaveLength(1)
        expect(shown[0]?.number).not.toBeNull()
      },
    ),
    { numRuns: 150 },
  )
})

describe('the last reply', () => {
  test('is what a number presses, again and again where that is meant', async () => {
    const room = await open()
    expect((await room.ask('/typed')).choices).toEqual([{ n: 1, label: 'again' }])
    expect((await room.ask('> 1')).title).toBe('pressed')
    expect((await room.ask('> 1')).outcome).toBe('refusal')
  })

  test('is a person’s own: two people in one room do not meet', async () => {
    const room = await open()
    const other = room.as('bex')
    await room.ask('/typed')
    expect((await other.ask('> 1')).outcome).toBe('refusal')
    expect((await room.ask('> 1')).title).toBe('pressed')
  })
})

test('a picture that cannot be drawn does not cost the answer, and somebody is told', async () => {
  const room = await open()
  expect(await room.ask('/typed')).toMatchObject({ outcome: 'answer', files: [] })
  expect(room.errors).toHaveLength(1)
})

describe('the practice clock', () => {
  test('moves when it is told to, and says the time and that nothing arrived', async () => {
    const room = await open()
    const before = await room.ask('+ 1 day')
    const after = await room.ask('+ 8 days')
    expect(after.facts.due?.value).toBe(0)
    const [from, to] = [before, after].map(({ facts }) => Date.parse(String(facts.now?.value)))
    expect((to ?? 0) - (from ?? 0)).toBeGreaterThanOrEqual(8 * 86_400_000)
    expect((to ?? 0) - (from ?? 0)).toBeLessThan(8 * 86_400_000 + 60_000)
  })

  test('then come the messages that fell due, the earliest first, and their choices can be pressed', async () => {
    const room = await open()
    await plan(room, ['second', 'first', 'too late'], [2, 1, 30])
    const [moved, ...due] = await room.type('+ 3 days')
    expect(moved?.facts.due).toMatchObject({ value: 2 })
    expect(due.map(({ title }) => title)).toEqual(['first', 'second'])
    expect((await room.ask('> 1')).title).toBe('pressed')
    expect((await room.type('+ 1 day')).length).toBe(1)
    expect((await room.type('+ 40 days'))[1]?.title).toBe('too late')
  })
})

/** Plans messages of the demo crew that fall due after so many days. */
async function plan({ bot }: TestRoom, titles: readonly string[], inDays: readonly number[]) {
  await write(bot.database, async (db) => {
    const crew = await findCrew(db, 'room:demo')
    const store = crewStore(db, crew?.id ?? 0)
    const [person] = await store.people.list()
    for (const [at, title] of titles.entries())
      await store.deliveries.plan(
        {
          personId: person?.id ?? 0,
          command: 'typed',
          reply: reply('question', asTyped(title), {
            choices: [{ label: asTyped('go on'), to: { step: 'again' } }],
          }),
          nonce: title,
          dueAtMs: NOON_MS + (inDays[at] ?? 0) * 86_400_000,
        },
        NOON_MS,
      )
  })
}
