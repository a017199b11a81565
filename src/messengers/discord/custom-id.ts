/**
 * What a button, menu or form carries back. The head is a token of the desk (`s1.2k.1`) or one of this adapter's own,
 * versioned like it; then marks, and in a direct message whose crew it belongs to: `s1.2k.1!qr@1234`.
 */
export interface CustomId {
  readonly head: string
  readonly marks: Marks
  /** Server id, written only where the platform would not tell it. */
  readonly guild: string | null
}

export interface Marks {
  /** The press that opened this form closed its turn. */
  readonly closing?: boolean
  /** Answers later, as its command does. */
  readonly slow?: boolean
  /** Stands below a question: what it leads to takes the question's place. */
  readonly question?: boolean
  /** May be pressed again. */
  readonly repeat?: boolean
}

const LETTERS = { closing: 'c', slow: 'd', question: 'q', repeat: 'r' } as const

export function writeCustomId({ head, marks, guild }: CustomId): string {
  const letters = Object.entries(LETTERS).flatMap(([name, letter]) =>
    marks[name as keyof Marks] ? [letter] : [],
  )
  return `${head}${letters.length > 0 ? `!${letters.join('')}` : ''}${guild === null ? '' : `@${guild}`}`
}

/** Never fails: an id that this program did not write keeps its text as the head, and the desk refuses it. */
export function readCustomId(text: string): CustomId {
  const found = /^([^!@]+)(?:!([cdqr]{1,4}))?(?:@(\d{1,20}))?$/.exec(text)
  if (found?.[1] === undefined) return { head: text, marks: {}, guild: null }
  const letters = found[2] ?? ''
  const marks = Object.fromEntries(
    Object.entries(LETTERS).flatMap(([name, letter]) => (letters.includes(letter) ? [[name, true]] : [])),
  )
  return { head: found[1], marks, guild: found[3] ?? null }
}

/** Heads that this adapter answers itself, out of what is kept. */
export type OwnHead =
  | { readonly kind: 'menu'; readonly turnId: number }
  | { readonly kind: 'working'; readonly turnId: number }
  | { readonly kind: 'language'; readonly turnId: number; readonly language: string }
  | { readonly kind: 'crew' }

const KINDS = { menu: 'p1', working: 'w1', language: 'l1', crew: 'c1' } as const

export function writeHead(head: OwnHead): string {
  if (head.kind === 'crew') return KINDS.crew
  const turn = `${KINDS[head.kind]}.${head.turnId.toString(36)}`
  return head.kind === 'language' ? `${turn}.${head.language}` : turn
}

export function readHead(text: string): OwnHead | null {
  if (text === KINDS.crew) return { kind: 'crew' }
  const found = /^([plw]1)\.([0-9a-z]{1,10})(?:\.([A-Za-z-]{2,11}))?$/.exec(text)
  if (found?.[1] === undefined || found[2] === undefined) return null
  const turnId = Number.parseInt(found[2], 36)
  if (found[1] === KINDS.menu) return { kind: 'menu', turnId }
  if (found[1] === KINDS.working) return { kind: 'working', turnId }
  return found[3] === undefined ? null : { kind: 'language', turnId, language: found[3] }
}
