import { readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { z } from 'zod'
import { commands } from '#commands/index.ts'
import { projectRoot } from '#src/project.ts'
import { notes } from '#src/reference/facts.ts'
import { takes, writeReference } from '#src/reference/write-reference.ts'
import { loadWords } from '#src/words/load.ts'
import { openRoom, type Said } from './open-room.ts'

test('docs/commands.md is what `npm run reference` writes', () => {
  const kept = readFileSync(path.join(projectRoot(), 'docs', 'commands.md'), 'utf8')
  expect(kept).toBe(writeReference(commands, loadWords(), notes))
})

test('every command has its note, and no note is left of a command that is gone', () => {
  expect(Object.keys(notes).sort()).toEqual(commands.map(({ name }) => name).sort())
})

/** `half_3` is told as `half_N`. */
const noteOf = (command: string, fact: string) =>
  notes[command]?.facts.find(({ name }) => name === fact || name === fact.replace(/_\d+$/, '_N'))

const factsOf = ({ facts }: Said) => Object.keys(facts)

describe.each(commands.filter(({ name }) => notes[name] !== undefined))('/$name', ({ name, may, slow }) => {
  test('its examples are read, and what they answer is in the reference', async () => {
    const room = await openRoom()
    const typing = room.as(may === 'lead' ? 'lead' : 'bex')
    for (const example of notes[name]?.examples ?? []) {
      expect(example.startsWith(`/${name}`)).toBe(true)
      const said = await typing(example)
      expect(said.title, example).not.toBe('Cannot do that yet')
      // What answers a moment later can open no form: a messenger takes forms only at once.
      if (slow === true) expect(said.fields, example).toEqual([])
      expect(
        factsOf(said).filter((fact) => noteOf(name, fact) === undefined),
        example,
      ).toEqual([])
    }
    expect(room.errors).toEqual([])
  })
})

test('facts of /mix that come up in loads, leftovers, percentages and refusals are told', async () => {
  const room = await openRoom()
  const bex = room.as('bex')
  const lines = [
    '/mix product:"Tarnbrask 75 WDG" ground:"18500 ft2" sprayer:Backpack',
    '/mix product:"Cawderly Spot" rate:"0.5 % v/v" tank:"2 gal" sprayer:"Hand can"',
    '/mix rate:"3 pt/acre" tank:"2 gal" ground:"1000 ft2" output:"1 gal/1000 ft2"',
    '/mix product:"Tarnbrask 75 WDG" tank:1 sprayer:"Hand can" site:"Fallowquay Ballpark" area:Infield spots:same',
    '/mix rate:"0.01 oz wt/1000 ft2" tank:"1 gal" output:"1 gal/1000 ft2"',
  ]
  const seen = new Set<string>()
  for (const line of lines) for (const fact of factsOf(await bex(line))) seen.add(fact)
  const tank =
    '/mix product:"Pellimoor 80 WP" also:"Tarnbrask 75 WDG" site:"Plimmet Street House" area:"Front lawn" tank:"2 gal"'
  const lifted = await room.as('odalys')(
    `${tank} output:"2 gal/1000 ft2"`,
    '> 1',
    '= reason:"Both makers say that it is fine"',
  )
  for (const fact of factsOf(lifted)) seen.add(fact)
  for (const fact of factsOf(
    await bex(`${tank.replace('tank:"2 gal"', 'sprayer:Backpack')} output:"2 gal/1000 ft2"`),
  ))
    seen.add(fact)
  const pouring =
    '/mix product:"Tarnbrask 75 WDG" tank:"1 gal" sprayer:"Hand can" site:"Plimmet Street House" area:"Front lawn"'
  for (const fact of factsOf(await bex(pouring, '> 1'))) seen.add(fact)
  expect([...seen].filter((fact) => noteOf('mix', fact) === undefined)).toEqual([])
  const told = notes.mix?.facts.map(({ name }) => name) ?? []
  const named = new Set([...seen].map((fact) => (told.includes(fact) ? fact : fact.replace(/_\d+$/, '_N'))))
  expect(told.filter((name) => !named.has(name))).toEqual([])
})

test.each([
  [z.string(), 'text'],
  [z.string().optional(), 'text'],
  [z.string().optional().meta({ suggest: 'sites' }), 'a site'],
  [z.enum(['a', 'b']).optional(), '`a`, `b`'],
  [z.boolean(), '`yes` or `no`'],
  [z.int().optional(), 'a number'],
  [z.string().meta({ file: true }), 'a file'],
])('what an option takes: %#', (schema, said) => {
  expect(takes(schema)).toBe(said)
})
