import { readFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { keyWords } from '#src/identify/words.ts'
import { plantWords } from '#src/plants.ts'
import { projectRoot } from '#src/project.ts'
import { buildCatalogue } from '#src/words/catalogue.ts'
import { loadEmergencyCard, loadSafetyLines, loadWords, readWordFiles } from '#src/words/load.ts'
import { readMessage } from '#src/words/message.ts'
import { readSayings } from './used-ids.ts'

const words = loadWords()
const ids = words.ids('en')
/** With the names of plants and the words of the key, which a further language may bring in its own folder. */
const everything = buildCatalogue([...readWordFiles(), ...plantWords(), ...keyWords()])
const rooms = new Set(ids.map((id) => id.split('.')[0]))
const sayings = readSayings(['src', 'commands'])

/** Ids that the code builds from parts, with where the parts come from. Everything else is found in the sources. */
const BUILT_FROM_DATA: Readonly<Record<string, string>> = {
  'safety.': 'ids of data/safety/lines.json',
  'emergency.': 'ids of data/safety/emergency-card.json',
  'unit.': 'units of a quantity',
  'outcome.': 'outcomes of a reply',
  'signal.': 'signal words of a label entry',
  'quantity.': 'kinds of QuantityProblem',
  'command.': 'names and options of commands',
  'problem.': 'kinds of problems',
  'words.intl-locale': 'asked for by the catalogue itself',
  'words.language-name': 'lists of languages',
}

/** `site.json` is a file, `sites.name` a column: a text is an id only when its room exists. */
const isId = (text: string) =>
  rooms.has(text.split('.')[0] ?? '') && !/\.(ts|json|csv|svg|png|pdf)$/.test(text)

const list = (lines: readonly string[]) => lines.map((line) => `\n  ${line}`).join('')

describe('words that the code says', () => {
  test('every id said by the code stands in the English words', () => {
    const said = new Map(sayings.said.map(({ id, place }) => [id, place]))
    for (const [text, place] of sayings.mentioned) if (isId(text)) said.set(text, place)
    const isPrefix = (id: string) => ids.some((other) => other.startsWith(`${id}.`))
    const missing = [...said].filter(([id]) => words.source('en', id) === null && !isPrefix(id))
    expect(list(missing.map(([id, place]) => `${id}   said in ${place}`).sort())).toBe('')
  })

  test('every id of the English words is said somewhere', () => {
    const beginnings = [...Object.keys(BUILT_FROM_DATA), ...sayings.built]
    const prefixes = [...sayings.mentioned.keys()].map((text) => `${text}.`)
    const unused = ids.filter(
      (id) =>
        !sayings.mentioned.has(id) &&
        ![...beginnings, ...prefixes].some((beginning) => id.startsWith(beginning)),
    )
    expect(list(unused)).toBe('')
  })

  test('every parameter of a sentence is given where it is said', () => {
    const lacking = sayings.said.flatMap(({ id, given, place }) => {
      const message = words.source('en', id) === null ? null : words.find('en', id)
      if (message === null || given === null) return []
      const absent = message.parameters.filter((name) => !given.includes(name))
      return absent.length === 0 ? [] : [`${id}   lacks {${absent.join('}, {')}} in ${place}`]
    })
    expect(list(lacking)).toBe('')
  })
})

describe('words in files', () => {
  test('every message is ICU', () => {
    const broken = readWordFiles().flatMap(({ locale, name, content }) =>
      Object.entries(content as Record<string, string>).flatMap(([id, text]) => {
        try {
          readMessage(text, locale)
          return []
        } catch (error) {
          return [`${locale}/${name} ${id}: ${error instanceof Error ? error.message : error}`]
        }
      }),
    )
    expect(list(broken)).toBe('')
  })

  test('no id stands twice in one file', () => {
    const twice = readWordFiles().flatMap(({ locale, name }) => {
      const text = readFileSync(path.join(projectRoot(), 'data/words', locale, name), 'utf8')
      const keys = [...text.matchAll(/^\s*"([^"]+)":/gm)].map((match) => match[1])
      return keys.filter((key, at) => keys.indexOf(key) !== at).map((key) => `${locale}/${name} ${key}`)
    })
    expect(list(twice)).toBe('')
  })

  test.each(words.locales.filter((locale) => locale !== 'en'))(
    '%s says everything that English says',
    (locale) => {
      const own = new Set(words.ids(locale))
      expect(list(ids.filter((id) => !own.has(id)))).toBe('')
    },
  )

  test.each(words.locales.filter((locale) => locale !== 'en'))(
    '%s says nothing that English does not',
    (locale) => {
      expect(list(words.ids(locale).filter((id) => everything.source('en', id) === null))).toBe('')
    },
  )

  test.each(words.locales.filter((locale) => locale !== 'en'))(
    '%s has the parameters of English',
    (locale) => {
      const parametersOf = (language: string, id: string) =>
        [...readMessage(words.source(language, id) ?? '', language).parameters].sort().join(', ')
      const other = words
        .ids(locale)
        .filter(
          (id) => words.source('en', id) !== null && parametersOf(locale, id) !== parametersOf('en', id),
        )
        .map((id) => `${id}   en {${parametersOf('en', id)}}   ${locale} {${parametersOf(locale, id)}}`)
      expect(list(other)).toBe('')
    },
  )

  test('safety lines and the emergency card have words', () => {
    const card = loadEmergencyCard()
    const needed = [
      ...loadSafetyLines().map(({ id }) => `safety.${id}`),
      ...[...card.numbers, ...card.steps].map(({ id }) => `emergency.${id}`),
    ]
    expect(list(needed.filter((id) => words.source('en', id) === null))).toBe('')
    expect(list(ids.filter((id) => id.startsWith('safety.') && !needed.includes(id)))).toBe('')
  })
})

describe('buildCatalogue()', () => {
  const file = (name: string, content: unknown, locale = 'en') => ({ locale, name, content })

  test('an id in two files names both', () => {
    const files = [file('a.json', { 'mix.done': 'Done' }), file('b.json', { 'mix.done': 'Ready' })]
    expect(() => buildCatalogue(files)).toThrow(
      '"mix.done" stands in data/words/en/a.json and in data/words/en/b.json',
    )
  })

  test.each([
    { content: { 'mix.done': 3 }, why: 'a number is no message' },
    { content: { Done: 'Done' }, why: 'an id has a room' },
    { content: { 'mix.done': '' }, why: 'a message is not empty' },
    { content: ['Done'], why: 'a list has no ids' },
  ])('refuses $content: $why', ({ content }) => {
    expect(() => buildCatalogue([file('a.json', content)])).toThrow('data/words/en/a.json')
  })

  test('all problems come at once', () => {
    const files = [file('a.json', { x: 'X' }), file('b.json', { y: 'Y' })]
    expect(() => buildCatalogue(files)).toThrow(/a\.json[\s\S]*b\.json/)
  })

  test('English must be there', () => {
    expect(() => buildCatalogue([file('a.json', { 'mix.done': 'Listo' }, 'es')])).toThrow('no words for "en"')
  })

  test('words that take long to read are read when one of them is asked for, and once', () => {
    let reads = 0
    const catalogue = buildCatalogue([file('a.json', { 'mix.done': 'Done' })], {
      beginnings: ['plant.'],
      read() {
        reads += 1
        return [file('taxa.csv', { 'plant.rush': 'Demo rush' })]
      },
    })
    expect([catalogue.source('en', 'mix.done'), catalogue.source('en', 'mix.gone'), reads]).toEqual([
      'Done',
      null,
      0,
    ])
    expect(catalogue.find('en', 'plant.rush')?.say({}, {})).toBe('Demo rush')
    expect([catalogue.source('en', 'plant.gone'), catalogue.ids('en'), reads]).toEqual([
      null,
      ['mix.done', 'plant.rush'],
      1,
    ])
  })

  test('words read later that stand elsewhere too are told', () => {
    const catalogue = buildCatalogue([file('a.json', { 'plant.rush': 'Demo rush' })], {
      beginnings: ['plant.'],
      read: () => [file('taxa.csv', { 'plant.rush': 'Demo sedge' })],
    })
    expect(() => catalogue.ids('en')).toThrow(
      '"plant.rush" stands in another file and in data/words/en/taxa.csv',
    )
  })

  test('a further language is a further folder and nothing else', () => {
    const catalogue = buildCatalogue([
      file('a.json', { 'mix.done': 'Done', 'mix.empty': 'Empty' }),
      file('a.json', { 'mix.done': 'Pronto', 'words.intl-locale': 'pt-BR' }, 'pt'),
    ])
    expect(catalogue.locales).toEqual(['en', 'pt'])
    expect(catalogue.find('pt-BR', 'mix.done')?.say({}, {})).toBe('Pronto')
    expect(catalogue.find('pt', 'mix.empty')?.say({}, {})).toBe('Empty')
    expect(catalogue.intlLocale('pt')).toBe('pt-BR')
  })
})
