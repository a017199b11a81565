import { readdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import ts from 'typescript'
import { describe, expect, test } from 'vitest'

const root = path.dirname(import.meta.dirname)

/** Which rooms a pure room may know, besides itself. Sentences as data (`conversation`) are plain types and builders. */
const PURE: Readonly<Record<string, readonly string[]>> = {
  memory: [],
  quantity: ['memory'],
  calculator: ['quantity'],
  weather: ['quantity', 'calculator', 'conversation'],
  when: ['quantity', 'label', 'conversation'],
  label: ['memory', 'quantity', 'calculator', 'conversation'],
  key: [],
  efficacy: ['quantity', 'calculator', 'label', 'conversation'],
  recheck: ['quantity', 'calculator', 'label', 'efficacy', 'conversation', 'key'],
  record: ['memory', 'quantity', 'calculator', 'weather', 'label', 'conversation'],
}

/** Packages that a pure room may use: arithmetic, schemas, sentences' dates; hashing for the record's chain. */
const PURE_PACKAGES: Readonly<Record<string, readonly string[]>> = {
  quantity: ['mathjs', 'zod'],
  record: ['zod', 'node:crypto'],
}
const ANY_PURE_PACKAGE = ['zod']

interface Import {
  readonly file: string
  readonly target: string
}

const sources = ['src', 'commands'].flatMap((folder) =>
  readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|mjs)$/.test(name))
    .map((name) => `${folder}/${name}`),
)

const imports: readonly Import[] = sources.flatMap((file) =>
  ts
    .preProcessFile(readFileSync(path.join(root, file), 'utf8'), true, true)
    .importedFiles.map(({ fileName }) => ({ file, target: placeOf(file, fileName) })),
)

/** `#src/x`, `./x` and `../x` as a path from the project's root; a package stays what it is. */
function placeOf(file: string, target: string): string {
  if (target.startsWith('#')) return target.slice(1)
  if (target.startsWith('.')) return path.posix.normalize(`${path.posix.dirname(file)}/${target}`)
  return target
}

const roomOf = (place: string) => /^src\/([^/]+)\//.exec(place)?.[1]
const isOurs = (place: string) => /^(src|commands|data|tests)\//.test(place)

describe.each(Object.entries(PURE))('the pure room %s', (room, known) => {
  const own = imports.filter(({ file }) => roomOf(file) === room)

  test('knows only the rooms below it', () => {
    const strangers = own.filter(
      ({ target }) => isOurs(target) && ![room, ...known].includes(roomOf(target) ?? ''),
    )
    expect(strangers).toEqual([])
  })

  test('uses no clock, database, messenger or file', () => {
    const packages = [...(PURE_PACKAGES[room] ?? []), ...ANY_PURE_PACKAGE]
    const foreign = own.filter(({ target }) => !isOurs(target) && !packages.includes(target))
    expect(foreign).toEqual([])
    const files = sources.filter((file) => roomOf(file) === room)
    const impure = files.filter((file) =>
      /\bprocess\.|\bDate\.now\(|new Date\(\)|Math\.random\(|\bconsole\./.test(
        readFileSync(path.join(root, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, ''),
      ),
    )
    expect(impure).toEqual([])
  })
})

test('only messengers/discord imports discord.js', () => {
  const found = imports.filter(
    ({ file, target }) =>
      /^discord(\.js|-api-types)/.test(target) && !file.startsWith('src/messengers/discord/'),
  )
  expect(found).toEqual([])
})

test('only the store knows SQL', () => {
  const found = imports.filter(
    ({ file, target }) =>
      ['kysely', 'pg', 'better-sqlite3'].includes(target) &&
      !file.startsWith('src/store/') &&
      file !== 'src/doctor.ts',
  )
  expect(found).toEqual([])
})

test('nothing in src imports commands but main.ts and the tools that list them', () => {
  const found = imports.filter(
    ({ file, target }) => file.startsWith('src/') && target.startsWith('commands/'),
  )
  const allowed = /^src\/(main|season\/|reference\/)/
  expect(found.filter(({ file }) => !allowed.test(file))).toEqual([])
})

test('nothing imports the tests', () => {
  expect(imports.filter(({ target }) => target.startsWith('tests/'))).toEqual([])
})
