import type { Text } from '#src/conversation/text.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speak } from '#src/words/speak.ts'

export type InWords = (text: Text) => string

/**
 * Sentences for the page, in one language. The page shows everything as plain text, so nothing in it can act; what
 * somebody typed only stays on one line, so that it cannot pass itself off as further lines of an answer.
 */
export function inWordsOf(words: Catalogue, locale: string, zone: string): InWords {
  return (text) => speak(words, text, { locale, zone, escape: oneLine })
}

export function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').trim()
}
