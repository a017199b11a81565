import fc from 'fast-check'
import { expect, test } from 'vitest'
import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { type Command, defineCommand } from '#src/desk/command.ts'
import { registryOf } from '#src/desk/registry.ts'
import { defineAll, RegistrationError } from '#src/messengers/discord/definitions.ts'
import { buildCatalogue } from '#src/words/catalogue.ts'
import { checkCommands } from '#tests/discord-loopback/rules/command.ts'
import { Findings } from '#tests/discord-loopback/rules/findings.ts'

const name = fc.stringMatching(/^[a-z][a-z0-9_-]{0,20}$/)
const optionKind = fc.oneof(
  fc.record({ most: fc.integer({ min: 1, max: 9000 }) }).map(({ most }) => z.string().max(most)),
  fc.constant(z.string().meta({ suggest: 'site' })),
  fc
    .uniqueArray(
      fc.string({ minLength: 1, maxLength: 30 }).filter((one) => one.trim() === one),
      { minLength: 1, maxLength: 30 },
    )
    .map((values) => z.enum(values)),
  fc.constant(z.int().min(0).max(10)),
  fc.constant(z.number()),
  fc.constant(z.boolean()),
  fc.constant(z.unknown().meta({ file: true })),
  fc.constant(z.string().meta({ role: true })),
)
const option = fc
  .tuple(optionKind, fc.boolean())
  .map(([kind, optional]) => (optional ? kind.optional() : kind))
const command: fc.Arbitrary<Command> = fc
  .record({
    words: fc.array(name, { minLength: 1, maxLength: 2 }),
    options: fc.dictionary(name, option, { maxKeys: 28 }),
  })
  .map(({ words, options }) =>
    defineCommand({
      name: words.join(' '),
      may: 'crew',
      options: z.strictObject(options as Record<string, z.ZodType>),
      start: async () => ({ reply: reply('answer', say('toy.line')) }),
    }),
  )
const commands = fc.uniqueArray(command, { maxLength: 12, selector: (one) => one.name })
const sentence = fc.string({ minLength: 1, maxLength: 300 }).map((text) => text.replace(/[{}'<>#|]/g, '-'))

test('whatever the commands, their registration is within every limit or stops with what to mend', () => {
  fc.assert(
    fc.property(
      commands,
      sentence,
      fc.string({ minLength: 1, maxLength: 40 }),
      (all, description, foreign) => {
        const ids = all.flatMap((one) => {
          const id = one.name.replaceAll(' ', '-')
          return [`command.${id}`, ...Object.keys(one.options.shape).map((key) => `command.${id}.${key}`)]
        })
        const names = all.flatMap((one) => Object.keys(one.options.shape)).map((key) => `option-name.${key}`)
        const entries = (list: readonly string[], text: string) =>
          Object.fromEntries(list.map((id) => [id, text]))
        const words = buildCatalogue([
          { locale: 'en', name: 'a.json', content: { 'toy.line': 'x', ...entries(ids, description) } },
          {
            locale: 'es',
            name: 'a.json',
            content: {
              'toy.line': 'x',
              ...entries(ids, `${description} y más`),
              ...entries(names, foreign.replace(/[{}'<>#|]/g, '-')),
            },
          },
        ])
        let definitions: unknown
        try {
          definitions = defineAll(registryOf(all), words)
        } catch (error) {
          expect(error).toBeInstanceOf(RegistrationError)
          expect((error as RegistrationError).problems.length).toBeGreaterThan(0)
          return
        }
        const findings = new Findings()
        checkCommands(JSON.parse(JSON.stringify(definitions)), findings, false)
        expect(findings.breaches.map((one) => `${one.path}: ${one.message}`)).toEqual([])
      },
    ),
    { numRuns: 150 },
  )
})
