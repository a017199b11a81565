/** Names one choice of one answered question, or its form. Short enough for any messenger, and still good tomorrow. */
export interface Token {
  readonly turnId: number
  readonly choice: number | 'form'
}

const VERSION = 's1'

/** `s1.2k.1`: version, turn in base 36, number of the choice (from 1) or `f` for the form. */
export function writeToken({ turnId, choice }: Token): string {
  return `${VERSION}.${turnId.toString(36)}.${choice === 'form' ? 'f' : choice}`
}

/** Null for anything that this program did not write. Whose it is, the desk checks. */
export function readToken(text: string): Token | null {
  const found = /^s1\.([0-9a-z]{1,10})\.(f|[1-9]\d?)$/.exec(text)
  if (found?.[1] === undefined || found[2] === undefined) return null
  const turnId = Number.parseInt(found[1], 36)
  return { turnId, choice: found[2] === 'f' ? 'form' : Number(found[2]) }
}
