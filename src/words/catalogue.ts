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

const ID = /^[a-z][a-z0-9-]*(\.[^\s.](?:[^.]*[^\s.])?)+$/
const Words = z.record(z.string().regex(ID, 'an id looks like mix.fill-to'), z.string().min(1))

/** Whether a file needs no closer look. There are thousands of words, and the schema takes a tenth of a start. */
const isWords = (content: unknown): content is Readonly<Record<string, string>> =>
  typeof content === 'object' &&
  content !== null &&
  !Array.isArray(content) &&
  Object.entries(content).every(([id, text]) => typeof text === 'string' && text !== '' && ID.test(id))

/** Words that take long to read, made when the first of them is said. Each of their ids begins in one of these ways. */
export interface LaterWords {
  readonly beginnings: readonly string[]
  readonly read: () => readonly WordFile[]
}

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
 * @param later words for languages that the files have, read when one of them is asked for; the errors of these come then
 * @throws CatalogueError naming every bad file, every id that stands in two files, and a missing English
 */
export function buildCatalogue(files: readonly WordFile[], later?: LaterWords): Catalogue {
  const words: Joined = new Map()
  const problems = joinFiles(files, words)
  if (!words.has(BASE_LOCALE)) problems.push(`no words for "${BASE_LOCALE}"`)
  if (problems.length > 0) throw new CatalogueError(problems)
  const locales = [...words.keys()].sort()
  const parsed = new Map<string, Message | null>()

  let waiting = later
  const isLater = (id: string) => waiting?.beginnings.some((beginning) => id.startsWith(beginning)) ?? false
  const readLater = () => {
    const found = joinFiles(waiting?.read() ?? [], words)
    if (found.length > 0) throw new CatalogueError(found)
    waiting = undefined
  }

  const source = (locale: string, id: string) => {
    if (isLater(id)) readLater()
    return words.get(locale)?.get(id) ?? null
  }
  const closest = (locale: string) => closestOf(locale, locales)
  const intlLocales = new Map<string, string>()
  const intlLocale = (locale: string) => {
    const own = closest(locale)
    const known = intlLocales.get(own)
    if (known !== undefined) return known
    const found = source(own, 'words.intl-locale') ?? own
    intlLocales.set(own, found)
    return found
  }

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
    ids: (locale) => {
      readLater()
      return [...(words.get(locale)?.keys() ?? [])].sort()
    },
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

/** Texts by language and id. */
type Joined = Map<string, Map<string, string>>

/** Adds the words of these files to those known; gives back what is wrong with them. */
function joinFiles(files: readonly WordFile[], words: Joined): string[] {
  const problems: string[] = []
  for (const file of files) {
    const read = isWords(file.content) ? null : Words.safeParse(file.content)
    if (read?.error !== undefined) {
      const why = z.prettifyError(read.error).replaceAll('\n', ' ')
      problems.push(`${placeOf(file)}: ${why}`)
      continue
    }
    const known = words.get(file.locale) ?? new Map()
    words.set(file.locale, known)
    for (const [id, text] of Object.entries(file.content as Readonly<Record<string, string>>)) {
      if (known.has(id)) problems.push(twice(id, file, files))
      known.set(id, text)
    }
  }
  return problems
}

const placeOf = ({ locale, name }: WordFile) => `data/words/${locale}/${name}`

function twice(id: string, file: WordFile, files: readonly WordFile[]): string {
  const first = files.find(
    ({ locale, content }) => locale === file.locale && Object.hasOwn(content as object, id),
  )
  const other = first === undefined || first === file ? 'another file' : placeOf(first)
  return `"${id}" stands in ${other} and in ${placeOf(file)}`
}

function closestOf(locale: string, locales: readonly string[]): string {
  if (locale === PSEUDO || locales.includes(locale)) return locale
  const language = locale.split(/[-_]/)[0] ?? locale
  return locales.includes(language) ? language : BASE_LOCALE
}
