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

/** A head that somebody holds on paper; its place is not always written beside it. */
export interface KnownHead {
  readonly seq?: number
  readonly hash: string
}

/** How far a check has come: plain data, so that a long chain is checked a page at a time. */
export interface Walk {
  readonly head: Head | null
  readonly breaks: readonly Break[]
  /** Has the head that is known from elsewhere been met? */
  readonly isMet: boolean
}

export const walkStart: Walk = { head: null, breaks: [], isMet: false }

/**
 * Goes on with a check over the next links of a chain, in the order in which they are kept. A link that stands in the
 * wrong place is told apart from one that is missing only within a page.
 */
export function walkChain(walk: Walk, links: readonly Link[], against?: KnownHead): Walk {
  const known = new Set(links.map(({ hash }) => hash))
  const found = links.flatMap((link, at) => [
    ...checkPlace(at === 0 ? walk.head : (links[at - 1] ?? null), link, known),
    ...checkText(link),
    ...checkSeals(link),
  ])
  const last = links.at(-1)
  return {
    head: last === undefined ? walk.head : { seq: last.seq, hash: last.hash },
    breaks: [...walk.breaks, ...found],
    isMet: walk.isMet || (against !== undefined && links.some((link) => isHead(link, against))),
  }
}

/** Everything that was found, and whether the chain still reaches a head that is known from elsewhere. */
export function walkEnd({ head, breaks, isMet }: Walk, against?: KnownHead): readonly Break[] {
  if (against === undefined || isMet) return breaks
  const last = head?.seq ?? 0
  const isOld = against.seq !== undefined && against.seq <= last
  return [...breaks, isOld ? { kind: 'rewritten', seq: against.seq } : { kind: 'cut-tail', seq: last + 1 }]
}

/**
 * Every place at which a chain does not hold; none for a sound one.
 * @param links in the order in which they are kept
 * @param options.against a head that was printed earlier: it finds a cut tail and a chain that was rewritten whole
 */
export function verifyChain(
  links: readonly Link[],
  { against }: { readonly against?: KnownHead } = {},
): readonly Break[] {
  return walkEnd(walkChain(walkStart, links, against), against)
}

function isHead({ seq, hash }: Link, against: KnownHead): boolean {
  return hash === against.hash && (against.seq ?? seq) === seq
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

function checkPlace(before: Head | null, link: Link, known: ReadonlySet<string>): Break[] {
  const expected = { seq: (before?.seq ?? 0) + 1, previous: before?.hash ?? GENESIS }
  if (link.seq === expected.seq && link.previous === expected.previous) return []
  // A forerunner that stands somewhere else, or a first link that is not first, was moved; else it is gone.
  const isElsewhere = known.has(link.previous) || (link.previous === GENESIS && before !== null)
  if (isElsewhere || link.seq < expected.seq) return [{ kind: 'reordered', seq: link.seq }]
  return link.seq > expected.seq
    ? [{ kind: 'missing-link', seq: expected.seq }]
    : [{ kind: 'rewritten', seq: link.seq }]
}
