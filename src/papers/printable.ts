import { hasGlyph } from '#src/pictures/text/fonts.ts'
import { printTyped } from '#src/records/print-value.ts'

/** Text as a paper can print it: a character that its typeface lacks stands as its code, so that nothing is lost. */
export function printable(text: string): string {
  const typed = printTyped(text)
  if (ASCII.test(typed)) return typed
  return Array.from(typed, (character) => (hasGlyph(character) ? character : codeOf(character))).join('')
}

/** The typeface has all of these. */
const ASCII = /^[ -~]*$/

function codeOf(character: string): string {
  const code = character.codePointAt(0) ?? 0
  return `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`
}
