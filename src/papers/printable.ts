import { hasGlyph } from '#src/pictures/text/fonts.ts'
import { printTyped } from '#src/records/print-value.ts'

/** Text as a paper can print it: a character that its typeface lacks stands as its code, so that nothing is lost. */
export function printable(text: string): string {
  return Array.from(printTyped(text), (character) =>
    hasGlyph(character) ? character : codeOf(character),
  ).join('')
}

function codeOf(character: string): string {
  const code = character.codePointAt(0) ?? 0
  return `[U+${code.toString(16).toUpperCase().padStart(4, '0')}]`
}
