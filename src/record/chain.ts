import { amendmentText } from './amend.ts'
import type { Sealed } from './seal.ts'
import { brokenSeals, sha256 } from './seal.ts'
import { recordText } from './text.ts'

/** The hash before the first link. */
export const GENESIS = '0'.repeat(64)

export type Entry =
  | { readonly kind: 'record'; readonly sealed: Sealed }
  | { readonly kind: 'amendment'; readonly sealed: Sealed }

/** One record or amendment in its place. A crew has one chain, counted from 1. */
export interface Link {
  readonly seq: number
  readonly entry: Entry
  readonly previous: string
  readonly hash: string
}

/** The newest link as it is printed on papers: which it was, and its hash. */
export interface Head {
  readonly seq: number
  readonly hash: string
}

export type BreakKind =
  | 'changed-text'
  | 'unreadable'
  | 'missing-link'
  | 'reordered'
  | 'rewritten'
  | 'personal-changed'
  | 'cut-tail'

/** Where a chain does not hold, and why. */
export interface Break {
  readonly kind: BreakKind
  /** The link at which it shows; for links that are gone, the first of them. */
  readonly seq: number
  /** Paths of personal values that are not those that were sealed. */
  readonly paths?: readonly string[]
}

/** The canonical text of an entry: what anybody can hash again with a tool of their own. */
export function textOfEntry({ kind, sealed }: Entry): string {
  return kind === 'record' ? recordText(sealed.open) : amendmentText(sealed.open)
}

/** SHA-256, in hex, over the previous hash, the place in the chain and the canonical text, a line break between them. */
export function hashOf(seq: number, previous: string, entry: Entry): string {
  return sha256(`${previous}\n${seq}\n${textOfEntry(entry)}`)
}

/** The next link after the newest; the first of all without one. */
export function nextLink(head: Head | null, entry: Entry): Link {
  const seq = (head?.seq ?? 0) + 1
  const previous = head?.hash ?? GENESIS
  return { seq, entry, previous, hash: hashOf(seq, previous, entry) }
}

/** `142-3f0a…`: the newest hash with its place, for papers, summaries and backups. */
export function printHead({ seq, hash }: Head): string {
  return `${seq}-${hash}`
}

/** A head as somebody types it from a paper; the hash alone is enough. Null for anything else. */
export function readHead(text: string): { readonly seq?: number; readonly hash: string } | null {
  const parts = /^(?:(\d{1,12})-)?([0-9a-f]{64})$/.exec(text.trim().toLowerCase())
  const hash = parts?.[2]
  if (hash === undefined) return null
  return parts?.[1] === undefined ? { hash } : { seq: Number(parts[1]), hash }
}

/**
 * Every place at which a chain does not hold; none for a sound one.
 * @param links in the order in which they are kept
 * @param options.against a head that was printed earlier: it finds a cut tail and a chain that was rewritten whole
 */
export function verifyChain(
  links: readonly Link[],
  options: { readonly against?: { readonly seq?: number; readonly hash: string } } = {},
): readonly Break[] {
  const known = new Map(links.map(({ hash }, at) => [hash, at]))
  const found = links.flatMap((link, at) => [
    ...checkPlace(links[at - 1], link, { at, known }),
    ...checkText(link),
    ...checkSeals(link),
  ])
  const { against } = options
  return against === undefined ? found : [...found, ...checkHead(links, against)]
}

function checkText(link: Link): Break[] {
  try {
    const isSound = hashOf(link.seq, link.previous, link.entry) === link.hash
    return isSound ? [] : [{ kind: 'changed-text', seq: link.seq }]
  } catch (error) {
    // A text that cannot even be written was not written by us.
    if (error instanceof RangeError) return [{ kind: 'unreadable', seq: link.seq }]
    throw error
  }
}

function checkSeals({ seq, entry }: Link): Break[] {
  const paths = brokenSeals(entry.sealed)
  return paths.length === 0 ? [] : [{ kind: 'personal-changed', seq, paths }]
}

interface Place {
  readonly at: number
  readonly known: ReadonlyMap<string, number>
}

function checkPlace(before: Link | undefined, link: Link, { at, known }: Place): Break[] {
  const expected = { seq: (before?.seq ?? 0) + 1, previous: before?.hash ?? GENESIS }
  if (link.seq === expected.seq && link.previous === expected.previous) return []
  if (link.seq > expected.seq && !stands(link.previous, at, known))
    return [{ kind: 'missing-link', seq: expected.seq }]
  const isRewritten = link.seq === expected.seq && !stands(link.previous, at, known)
  return [{ kind: isRewritten ? 'rewritten' : 'reordered', seq: link.seq }]
}

/** Does the link that this one names as its forerunner stand somewhere else in the chain? */
function stands(previous: string, at: number, known: ReadonlyMap<string, number>): boolean {
  return (previous === GENESIS && at > 0) || known.has(previous)
}

function checkHead(
  links: readonly Link[],
  against: { readonly seq?: number; readonly hash: string },
): Break[] {
  if (links.some(({ hash, seq }) => hash === against.hash && (against.seq ?? seq) === seq)) return []
  const last = links.at(-1)?.seq ?? 0
  if (against.seq !== undefined && against.seq <= last) return [{ kind: 'rewritten', seq: against.seq }]
  return [{ kind: 'cut-tail', seq: last + 1 }]
}
