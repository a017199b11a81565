import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import type { Ask } from '#src/conversation/ask.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { cleanAsk } from '#src/desk/clean-ask.ts'
import { defineCommand } from '#src/desk/command.ts'
import { metaOf, parseOptions } from '#src/desk/parse-options.ts'
import { registryOf } from '#src/desk/registry.ts'
import { ada, run, speaker } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'
import { toyCommands } from '#tests/helpers/toy-commands.ts'

const command = defineCommand({
  name: 'toy',
  may: 'crew',
  options: z.strictObject({
    amount: z
      .string()
      .min(1)
      .max(20)
      .meta({ aliases: ['how_much', 'qty'] }),
    count: z.int().min(1).max(9).optional(),
    form: z.enum(['dry', 'wet']).optional(),
  }),
  start: async () => ({ reply: reply('answer', say('toy')) }),
})

const read = (options: Readonly<Record<string, unknown>>) => parseOptions(command, options)

describe('options', () => {
  test.each([
    [{ amount: '2 gal' }, { amount: '2 gal' }],
    [{ amount: '  2 gal ' }, { amount: '2 gal' }],
    [
      { how_much: '2 gal', count: 3 },
      { amount: '2 gal', count: 3 },
    ],
    [
      { qty: '2 gal', form: 'dry' },
      { amount: '2 gal', form: 'dry' },
    ],
  ])('%j are understood', (given, options) => {
    expect(read(given)).toEqual({ ok: true, options })
  })

  const allowed = { all: ['amount', 'count', 'form'], join: 'and' } as const
  test.each([
    [{}, [say('desk.option-missing', { option: 'amount' })]],
    [{ amount: '' }, [say('desk.option-missing', { option: 'amount' })]],
    [{ amount: '   ' }, [say('desk.option-missing', { option: 'amount' })]],
    [{ amount: 'x'.repeat(21) }, [say('desk.option-long', { option: 'amount', most: 20 })]],
    [{ amount: '1', count: 10 }, [say('desk.option-wrong', { option: 'count' })]],
    [{ amount: '1', count: 'ten' }, [say('desk.option-wrong', { option: 'count' })]],
    [{ amount: '1', count: 1.5 }, [say('desk.option-wrong', { option: 'count' })]],
    [
      { amount: '1', form: 'gas' },
      [say('desk.option-choice', { option: 'form', allowed: { all: ['dry', 'wet'], join: 'or' } })],
    ],
    [{ amount: '1', tank: 2 }, [say('desk.option-unknown', { option: 'tank', allowed })]],
  ])('%j have one problem, told plainly', (given, problems) => {
    expect(read(given)).toEqual({ ok: false, problems })
  })

  test('all that is wrong is told at once', () => {
    const found = read({ count: 0, form: 'gas', tank: 1, pump: 2 })
    const told = found.ok ? [] : found.problems.map(({ say: id, with: what }) => [id, what?.option])
    expect(told).toHaveLength(5)
    expect(told).toEqual(
      expect.arrayContaining([
        ['desk.option-missing', 'amount'],
        ['desk.option-wrong', 'count'],
        ['desk.option-choice', 'form'],
        ['desk.option-unknown', 'tank'],
        ['desk.option-unknown', 'pump'],
      ]),
    )
  })

  test('a name that every object has is no option', () => {
    for (const name of ['constructor', 'toString', 'hasOwnProperty', 'valueOf'])
      expect(read({ amount: '1', [name]: 'x' })).toMatchObject({ ok: false })
  })

  test('nothing that can be passed makes it throw', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string(), fc.anything()), (given) => {
        const found = read(given)
        expect(found.ok || found.problems.length > 0).toBe(true)
      }),
    )
  })

  test('what an option carries is found through optional, too', () => {
    const schema = z.string().meta({ suggest: 'sites', aliases: ['place'] })
    expect(metaOf(schema)).toMatchObject({ suggest: 'sites' })
    expect(metaOf(schema.optional())).toMatchObject({ suggest: 'sites', aliases: ['place'] })
    expect(metaOf(z.string())).toEqual({})
  })
})

test('two commands of the same name are a mistake of the program', () => {
  expect(() => registryOf([command, command])).toThrow('Two commands have the same name')
})

describe('what cannot be seen goes no further than the desk', () => {
  const dirty = 'ga\u0000te\u200b \ud800'
  test.each<[string, Ask, unknown]>([
    ['options', run('note', { text: dirty }), { options: { text: 'gate ' } }],
    ['names of options', run('note', { [dirty]: 'x' }), { options: { 'gate ': 'x' } }],
    ['the command', run(dirty), { command: 'gate ' }],
    [
      'names of people',
      run('note', {}, { by: speaker({ personName: dirty }) }),
      { by: { personName: 'gate ' } },
    ],
    ['numbers stay numbers', run('sum', { a: 1, b: true }), { options: { a: 1, b: true } }],
    [
      'fields and ticks',
      { kind: 'submit', id: 'x', by: ada, atMs: 0, token: 's1.1.f', fields: { a: dirty, b: [dirty, 'c'] } },
      { fields: { a: 'gate ', b: ['gate ', 'c'] } },
    ],
  ])('%s', (_what, ask, cleaned) => {
    expect(cleanAsk(ask)).toMatchObject(cleaned as object)
  })

  test('a file keeps its address', () => {
    const file = { name: 'a', type: 'b', bytes: 1, url: 'https://example.invalid/a\u200bb' }
    const ask = run('note', { photo: file })
    expect(cleanAsk(ask)).toMatchObject({ options: { photo: file } })
  })
})

eachEngine('whatever is typed', (place) => {
  test('is answered, kept and shown again', async () => {
    const desk = openTestDesk(await place.open())
    const text = fc.oneof(fc.string({ unit: 'binary', maxLength: 60 }), fc.string({ maxLength: 60 }))
    await fc.assert(
      fc.asyncProperty(
        fc.oneof(fc.constantFrom(...toyCommands.map(({ name }) => name)), text),
        fc.dictionary(fc.oneof(fc.constantFrom('a', 'b', 'text', 'how'), text), fc.oneof(text, fc.double())),
        text,
        async (command, options, personName) => {
          const ask = run(command, options, { by: speaker({ personName }) })
          const first = await desk.answer(ask)
          expect(first.number).toBeGreaterThan(0)
          expect(first.reply.safety.chosen?.length).toBeGreaterThan(0)
          expect((await desk.answer(ask)).reply).toEqual(first.reply)
        },
      ),
      { numRuns: 60 },
    )
    expect(desk.errors.filter(({ about }) => about.command !== 'broken')).toEqual([])
  })
})
