import { Locale, type LocalizationMap } from 'discord.js'
import { BASE_LOCALE, type Catalogue } from '#src/words/catalogue.ts'
import { cutText } from './cut.ts'
import { oneLine } from './escape.ts'
import { COMMAND } from './limits.ts'

/** Names of commands and options: letters, digits, dash and underscore, lower case (application-commands). */
const NAME = /^[-_\p{L}\p{N}]{1,32}$/u
export const isName = (name: string): boolean => NAME.test(name) && name === name.toLowerCase()

/** A message without parameters, in one language only. */
function own(words: Catalogue, language: string, id: string): string | null {
  return words.source(language, id) === null ? null : (words.find(language, id)?.say({}, {}) ?? null)
}

/** The platform's languages that a language of the catalogue serves: `es` serves es-ES and es-419. */
function served(language: string): readonly Locale[] {
  const known = servedBy.get(language)
  if (known !== undefined) return known
  const found = Object.values(Locale).filter(
    (locale) => locale === language || locale.split('-')[0] === language,
  )
  servedBy.set(language, found)
  return found
}
const servedBy = new Map<string, readonly Locale[]>()

function inOtherLanguages(words: Catalogue, ids: readonly string[], fits: (text: string) => string | null) {
  const map: LocalizationMap = {}
  for (const language of words.locales.filter((one) => one !== BASE_LOCALE)) {
    const text = ids.map((id) => own(words, language, id)).find((one) => one !== null)
    const fitted = text === undefined || text === null ? null : fits(text)
    if (fitted !== null) for (const locale of served(language)) map[locale] = fitted
  }
  return Object.keys(map).length === 0 ? null : map
}

/** Localized names; one that the platform would refuse is left out. */
export function localizedNames(words: Catalogue, id: string): LocalizationMap | null {
  return inOtherLanguages(words, [id], (name) => (isName(name) ? name : null))
}

export interface Description {
  readonly description: string
  readonly description_localizations: LocalizationMap | null
}

/** The first of these ids that has words describes it, within a length; without any, its name must do. */
export function describe(
  words: Catalogue,
  ids: readonly string[],
  fallback: string,
  most: number,
): Description {
  const shorten = (text: string) => cutText(oneLine(text), Math.min(most, COMMAND.description))
  const text = ids.map((id) => own(words, BASE_LOCALE, id)).find((one) => one !== null) ?? fallback
  return {
    description: shorten(text) || fallback,
    description_localizations: inOtherLanguages(words, ids, (one) => shorten(one) || null),
  }
}
