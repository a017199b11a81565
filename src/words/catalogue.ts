import { z } from 'zod'
import { type Message, readMessage } from './message.ts'
import { PSEUDO, stretch } from './pseudo.ts'

/** One file of words: a flat object of ids and ICU messages, one file a room. */
export interface WordFile {
  /** The folder's name: `en`, `es`. */
  readonly locale: string
  /** The file's name, for messages about it. */
  readonly name: string
  readonly content: unknown
}

const Words = z.record(
  z.string().regex(/^[a-z][a-z0-9-]*(\.[^\s.](?:[^.]*[^\s.])?)+$/, 'an id looks like mix.fill-to'),
  z.string().min(1),
)

/** The language that every other one falls back on. */
export const BASE_LOCALE = 'en'

/** All words that people read, in every language that has a folder, and the pseudo-language made from English. */
export interface Catalogue {
  /** Languages with a folder, sorted. The pseudo-language is not among them. */
  readonly locales: readonly string[]
  /** Ids of one language, sorted. */
  readonly ids: (locale: string) => readonly string[]
  /** A message in this language, else in its shorter tag, else in English; null if no language has it. */
  readonly find: (locale: string, id: string) => Message | null
  /** The source text, without fallback. */
  readonly source: (locale: string, id: string) => string | null
  /** The closest language that there are words for. */
  readonly closest: (locale: string) => string
  /** What Intl is asked with: message `words.intl-locale` of the language, else its folder's name. */
  readonly intlLocale: (locale: string) => string
}

/** Broken words stop the program at its start: a sentence that is missing half is worse than none. */
export class CatalogueError extends Error {
  override readonly name = 'CatalogueError'
  constructor(readonly problems: readonly string[]) {
    super(`Cannot use the words:\n${problems.map((problem) => `- ${problem}`).join('\n')}`)
  }
}

/**
 * Joins the files of all languages. Messages are parsed when first said, and kept.
 * @throws CatalogueError naming every bad file, every id that stands in two files, and a missing English
 */
export function buildCatalogue(files: readonly WordFile[]): Catalogue {
  const { words, problems } = joinFiles(files)
  if (!words.has(BASE_LOCALE)) problems.push(`no words for "${BASE_LOCALE}"`)
  if (problems.length > 0) throw new CatalogueError(problems)
  const locales = [...words.keys()].sort()
  const parsed = new Map<string, Message | null>()

  const source = (locale: string, id: string) => words.get(locale)?.get(id)?.text ?? null
  const closest = (locale: string) => closestOf(locale, locales)
  const intlLocale = (locale: string) => source(closest(locale), 'words.intl-locale') ?? closest(locale)

  function parse(locale: string, id: string): Message | null {
    const pseudo = locale === PSEUDO
    const own = pseudo ? BASE_LOCALE : closest(locale)
    for (const from of own === BASE_LOCALE ? [own] : [own, BASE_LOCALE]) {
      const text = source(from, id)
      if (text !== null) return readMessage(text, intlLocale(from), pseudo ? stretch : undefined)
    }
    return null
  }

  return {
    locales,
    ids: (locale) => [...(words.get(locale)?.keys() ?? [])].sort(),
    source,
    closest,
    intlLocale,
    find(locale, id) {
      const key = `${locale}\n${id}`
      const known = parsed.get(key)
      if (known !== undefined) return known
      const message = parse(locale, id)
      // Whatever locale a messenger claims, only a small set of keys may stay in memory.
      if (locale === PSEUDO || locales.includes(locale)) parsed.set(key, message)
      return message
    },
  }
}

type Joined = Map<string, Map<string, { text: string; file: string }>>

function joinFiles(files: readonly WordFile[]): { words: Joined; problems: string[] } {
  const words: Joined = new Map()
  const problems: string[] = []
  for (const file of files) {
    const place = `data/words/${file.locale}/${file.name}`
    const read = Words.safeParse(file.content)
    if (!read.success) {
      problems.push(`${place}: ${z.prettifyError(read.error).replaceAll('\n', ' ')}`)
      continue
    }
    const known = words.get(file.locale) ?? new Map()
    words.set(file.locale, known)
    for (const [id, text] of Object.entries(read.data)) {
      const other = known.get(id)
      if (other !== undefined) problems.push(`"${id}" stands in ${other.file} and in ${place}`)
      known.set(id, { text, file: place })
    }
  }
  return { words, problems }
}

function closestOf(locale: string, locales: readonly string[]): string {
  if (locale === PSEUDO || locales.includes(locale)) return locale
  const language = locale.split(/[-_]/)[0] ?? locale
  return locales.includes(language) ? language : BASE_LOCALE
}
