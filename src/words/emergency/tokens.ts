/** One word of what somebody typed, and where it stands. */
export interface Token {
  /** Lower case, no accents, no apostrophes; a run of one letter is at most two long. */
  readonly word: string
  readonly start: number
  readonly end: number
}

/** Words of one clause: no pattern reaches over a full stop or a new line. */
export type Clause = readonly Token[]

/** What is looked at: enough for any note, little enough to be quick. */
const LONGEST_TEXT = 6000

const PIECE = /[\p{L}\p{M}\p{N}'’`´]+|[.!?;:\n\r()¡¿]+/gu

/** Cuts a text into clauses of plain words. A dot inside a number is no end. */
export function readClauses(text: string): Clause[] {
  const clauses: Token[][] = [[]]
  for (const piece of text.slice(0, LONGEST_TEXT).matchAll(PIECE)) {
    const start = piece.index
    if (/[\p{L}\p{N}]/u.test(piece[0])) {
      clauses.at(-1)?.push({ word: plainWord(piece[0]), start, end: start + piece[0].length })
    } else if (!isInsideNumber(text, start)) {
      clauses.push([])
    }
  }
  return clauses.filter((clause) => clause.length > 0)
}

function isInsideNumber(text: string, at: number): boolean {
  return /^\d[.:]\d/.test(text.slice(at - 1, at + 2))
}

/** `Náuseas` is `nauseas`, `can't` is `cant`, `dizzzzy` is `dizzy`. */
export function plainWord(word: string): string {
  return word
    .normalize('NFKD')
    .replace(/\p{M}|['’`´]/gu, '')
    .toLowerCase()
    .replace(/([a-z])\1{2,}/g, '$1$1')
}
