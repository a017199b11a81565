import { readdirSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import type { z } from 'zod'
import { commands } from '#commands/index.ts'
import { metaOf } from '#src/desk/parse-options.ts'
import { projectRoot } from '#src/project.ts'
import { loadWords } from '#src/words/load.ts'

const words = loadWords()
const idOf = (name: string) => name.replaceAll(' ', '-')
const files = readdirSync(path.join(projectRoot(), 'commands')).filter(
  (name) => name.endsWith('.ts') && name !== 'index.ts',
)

/** Discord: 1 to 32 small letters, digits, - and _. Source: Application command naming, discord.com/developers/docs. */
const NAME = /^[-_\p{Ll}\p{N}]{1,32}$/u
/** Descriptions of commands and options: 1 to 100 characters. Same source. */
const LONGEST = 100

test('the index lists every file of the folder, once', () => {
  expect(commands.map(({ name }) => `${idOf(name)}.ts`).sort()).toEqual(files.sort())
})

test.each(files)('%s exports its command as default', async (file) => {
  const { default: command } = (await import(
    /* @vite-ignore */ path.join(projectRoot(), 'commands', file)
  )) as { default: unknown }
  expect(commands).toContain(command)
})

test('/emergency stands first and asks nothing', () => {
  expect(commands[0]?.name).toBe('emergency')
  expect(Object.keys(commands[0]?.options.shape ?? {})).toEqual([])
})

test.each(commands.map((command) => [command.name, command] as const))('/%s', (name, command) => {
  const described = (id: string) => {
    const text = words.source('en', id)
    expect(text, id).not.toBeNull()
    expect(text?.length ?? 0, id).toBeLessThanOrEqual(LONGEST)
  }
  const parts = name.split(' ')
  expect(parts.length).toBeLessThanOrEqual(2)
  for (const part of parts) expect(part).toMatch(NAME)
  if (parts.length === 2) described(`command-group.${parts[0]}`)
  described(`command.${idOf(name)}`)
  const options = Object.entries(command.options.shape)
  expect(options.length).toBeLessThanOrEqual(25)
  for (const [option, schema] of options) {
    expect(option).toMatch(NAME)
    described(`command.${idOf(name)}.${option}`)
    for (const alias of metaOf(schema).aliases ?? [])
      expect(command.options.shape, `${option} is also called ${alias}`).not.toHaveProperty(alias)
  }
})

test('aliases that crews say are understood', () => {
  const mix = commands.find(({ name }) => name === 'mix')
  const aliases = Object.entries(mix?.options.shape ?? {}).map(([name, schema]) => [
    name,
    metaOf(schema as z.core.$ZodType).aliases ?? [],
  ])
  expect(Object.fromEntries(aliases)).toMatchObject({
    tank: ['spray'],
    output: ['carrier'],
    in_tank: ['leftover'],
  })
})
