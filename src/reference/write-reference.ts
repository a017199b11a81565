import { z } from 'zod'
import type { Command } from '#src/desk/command.ts'
import { metaOf } from '#src/desk/parse-options.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import type { CommandNote } from './facts.ts'

/** What each kind of list completes while typing. */
const COMPLETED: Readonly<Record<string, string>> = {
  products: 'a product of the label book',
  sites: 'a site',
  areas: 'an area',
  sprayers: 'a sprayer',
  people: 'a person',
  weeds: 'a weed',
  turfs: 'a grass',
}

/** The reference of all commands as Markdown, from their schemas, the catalogue and the notes on facts. */
export function writeReference(
  commands: readonly Command[],
  words: Catalogue,
  notes: Readonly<Record<string, CommandNote>>,
): string {
  return [
    '# Commands',
    '',
    'Made by `npm run reference` from the commands themselves; do not edit it by hand. Products, places and people in the examples are invented.',
    '',
    'Amounts are typed as people write them: `2 gal`, `1 1/2 pt`, `0.113 oz wt/1000 ft2`, `3 pt/acre`, `0.25 % v/v`, `2,5 L/ha`. Every reply has an outcome (`answer`, `heads-up`, `question`, `hold` or `refusal`), at least one safety line and an answer number.',
    '',
    ...commands.map(({ name }) => `- [/${name}](#${name.replaceAll(' ', '-')})`),
    '',
    ...commands.flatMap((command) => sectionOf(command, words, notes[command.name])),
  ].join('\n')
}

function sectionOf(command: Command, words: Catalogue, note: CommandNote | undefined): string[] {
  const id = `command.${command.name.replaceAll(' ', '-')}`
  const options = Object.entries(command.options.shape)
  return [
    `## /${command.name}`,
    '',
    `${words.source('en', id) ?? ''}. ${whoMay(command)}`,
    '',
    ...(options.length === 0
      ? ['It has no options.', '']
      : [
          '| option | takes | meaning |',
          '| --- | --- | --- |',
          ...options.map(([name, schema]) => optionRow(name, schema, words.source('en', `${id}.${name}`))),
          '',
        ]),
    ...(note === undefined || note.examples.length === 0 ? [] : ['```text', ...note.examples, '```', '']),
    ...(note === undefined || note.facts.length === 0
      ? []
      : [
          '| fact | says |',
          '| --- | --- |',
          ...note.facts.map(({ name, says }) => `| \`${name}\` | ${says} |`),
          '',
        ]),
  ]
}

function whoMay({ may, slow, always, stopsAfterExposure }: Command): string {
  return [
    may === 'lead' ? 'For leads.' : 'For everybody.',
    ...(slow === true ? ['Answers a moment later, and only to who asked.'] : []),
    ...(always === true ? ['Always goes through.'] : []),
    ...(stopsAfterExposure === true ? ['Waits while somebody’s exposure is not dealt with.'] : []),
  ].join(' ')
}

function optionRow(name: string, schema: z.core.$ZodType, meaning: string | null): string {
  const aliases = metaOf(schema).aliases ?? []
  const also = aliases.length === 0 ? '' : ` (also ${aliases.map((one) => `\`${one}\``).join(', ')})`
  const needed = z.safeParse(schema, undefined).success ? '' : ', needed'
  return `| \`${name}\`${also} | ${takes(schema)}${needed} | ${meaning ?? ''} |`
}

/** What an option takes, in a few words. */
export function takes(schema: z.core.$ZodType): string {
  const { suggest, file } = metaOf(schema)
  if (file === true) return 'a file'
  if (suggest !== undefined) return COMPLETED[suggest] ?? suggest
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault || schema instanceof z.ZodNullable)
    return takes(schema.unwrap())
  if (schema instanceof z.ZodEnum) return schema.options.map((one) => `\`${one}\``).join(', ')
  if (schema instanceof z.ZodBoolean) return '`yes` or `no`'
  if (schema instanceof z.ZodNumber) return 'a number'
  return 'text'
}
