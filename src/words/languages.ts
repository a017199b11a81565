import { readWordFiles, wordFolders } from './load.ts'

export interface Language {
  /** The folder's name below data/words. */
  readonly id: string
  /** What its readers call it. */
  readonly name: string
}

/** Where a language says what it is called. */
const OWN_NAME = 'words.json'

let found: readonly Language[] | null = null

/** Every language that has words: a folder is enough. English stands first. */
export function languages(): readonly Language[] {
  found ??= readLanguages()
  return found
}

function readLanguages(): readonly Language[] {
  const names = new Map(wordFolders().map((id) => [id, id]))
  for (const { locale, content } of readWordFiles((name) => name === OWN_NAME)) {
    const name = (content as Readonly<Record<string, unknown>>)['words.language-name']
    if (typeof name === 'string') names.set(locale, name)
  }
  const all = [...names].map(([id, name]): Language => ({ id, name }))
  return all.sort((a, b) => Number(b.id === 'en') - Number(a.id === 'en') || (a.id < b.id ? -1 : 1))
}

/** Their ids, for a schema. */
export function languageIds(): [string, ...string[]] {
  const [first, ...rest] = languages().map(({ id }) => id)
  return [first ?? 'en', ...rest]
}

/** What its readers call a language; an unknown one by its id. */
export function languageName(id: string): string {
  return languages().find((one) => one.id === id)?.name ?? id
}
