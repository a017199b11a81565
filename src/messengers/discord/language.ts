import { say } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speak } from '#src/words/speak.ts'

/** A sentence of this adapter. Names given to it are shown where nothing is markup. */
export function sayPlainly(
  words: Catalogue,
  locale: string,
  id: string,
  parameters: Readonly<Record<string, string | number>> = {},
): string {
  return speak(words, say(id, parameters), { locale, escape: (typed) => typed })
}

/** A shared answer is in the crew's language, a private one in the person's. */
export function languageFor(answered: Answered, isShared: boolean): string {
  return isShared ? answered.language.crew : answered.language.person
}

/**
 * The other language that a shared answer may be asked for: that of the person whom it answers, else the next one that
 * there are words for, since others of the crew read along. Whoever presses it sees their own, where that is another.
 */
export function otherLanguage(words: Catalogue, answered: Answered): string | null {
  const shown = words.closest(answered.language.crew)
  const asker = words.closest(answered.language.person)
  if (asker !== shown) return asker
  return words.locales.find((locale) => locale !== shown) ?? null
}
