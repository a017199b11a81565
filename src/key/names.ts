import type { KeyData } from './schema.ts'
import { allowedTypos, editDistance, plain } from './text.ts'

/**
 * What a name may mean: one plant, or a group whose members are treated alike. `quality` 0 is the name itself,
 * 1 a name that differs in typos, 2 a name that only begins with or holds what was typed.
 */
export type NameMatch = {
  readonly ids: readonly string[]
  readonly group?: string
  readonly name: string
  readonly quality: 0 | 1 | 2
}

/** Plants and groups by common, scientific, Spanish or other name, the best match first. */
export function findTaxa(key: KeyData, name: string): NameMatch[] {
  return scored(key, name).map(({ entry, best }) => ({
    ids: entry.ids,
    ...(entry.group === undefined ? {} : { group: entry.group }),
    name: entry.names[0] ?? '',
    quality: best === 0 ? 0 : best >= TYPO && best < PART ? 1 : 2,
  }))
}

/**
 * Every plant that a name may mean: `bermudagrass` gives both bermudagrasses, `fescue` all fescues. Where a lawn's
 * turf is typed, all of them are guarded. Empty when nothing fits.
 */
export function taxaNamed(key: KeyData, name: string): readonly string[] {
  const matches = scored(key, name)
  const best = matches[0]?.best ?? 0
  return [...new Set(matches.filter((match) => match.best <= best).flatMap((match) => match.entry.ids))]
}

type Scored = { readonly entry: Entry; readonly best: number }

function scored(key: KeyData, name: string): Scored[] {
  const wanted = readName(name)
  if (wanted.compact === '') return []
  return entriesOf(key)
    .map((entry) => ({
      entry,
      best: Math.min(...entry.read.map((one, at) => score(wanted, one) + (at === 0 ? 0 : 0.01))),
    }))
    .map((match) => (match.best < 0.02 ? { ...match, best: 0 } : match))
    .filter(({ best }) => Number.isFinite(best))
    .sort((a, b) => a.best - b.best)
}

type Named = { readonly ids: readonly string[]; readonly group?: string; readonly names: readonly string[] }

/** A name as it is compared. */
type ReadName = { readonly plain: string; readonly compact: string }
type Entry = Named & { readonly read: readonly ReadName[] }

const readName = (name: string): ReadName => ({ plain: plain(name), compact: compact(name) })

/** The names of a table do not change: they are brought into shape once, not for everybody who types one. */
const entries = new WeakMap<KeyData, readonly Entry[]>()

function entriesOf(key: KeyData): readonly Entry[] {
  const known = entries.get(key)
  if (known !== undefined) return known
  const made = [...groupEntries(key), ...taxonEntries(key)].map((named) => ({
    ...named,
    read: named.names.map(readName),
  }))
  entries.set(key, made)
  return made
}

function groupEntries(key: KeyData): Named[] {
  return key.groups.map((group) => ({
    ids: group.members,
    group: group.id,
    names: [group.name.en, ...(group.name.es === undefined ? [] : [group.name.es])],
  }))
}

function taxonEntries(key: KeyData): Named[] {
  return key.taxa.map((taxon) => ({
    ids: [taxon.id],
    names: [
      taxon.names.en,
      taxon.names.en.replace(/\(.*?\)/g, ' '),
      ...[...taxon.names.en.matchAll(/\((.*?)\)/g)].flatMap((match) => (match[1] ?? '').split(',')),
      taxon.id,
      ...taxon.scientificName.split(';'),
      ...taxon.otherNames,
      ...taxon.spanishNames,
    ],
  }))
}

/** Without spaces and the ending "grass", so that "St Augustine", "Saint Augustine grass" and the like agree. */
function compact(name: string): string {
  const words = plain(name)
    .replace(/\bsaint\b/g, 'st')
    .replace(/ /g, '')
  return words.length > 8 ? words.replace(/grass(es)?$/, '') : words
}

/** Scores, best first: 0 the name, then a whole word of it, then the name with typos, then a part of it. */
const WORD = 0.3
const TYPO = 0.5
const PART = 2

function score(typed: ReadName, known: ReadName): number {
  const [wanted, name] = [typed.compact, known.compact]
  if (name === '') return Number.POSITIVE_INFINITY
  if (wanted === name) return 0
  if (name === `${wanted}s` || wanted === `${name}s`) return 0.2
  if (holdsWord(known, typed.plain) || holdsWord(known, typed.plain.replaceAll(' ', ''))) return WORD
  const most = allowedTypos(wanted)
  const edits = editDistance(wanted, name, most)
  if (edits <= most) return TYPO + edits * 0.15
  if (wanted.length >= 3 && name.startsWith(wanted)) return PART
  return wanted.length >= 4 && name.includes(wanted) ? PART + 0.5 : Number.POSITIVE_INFINITY
}

/** "rye grass" is a word of "perennial ryegrass". */
function holdsWord(name: ReadName, typed: string): boolean {
  return ` ${name.plain} `.includes(` ${typed} `)
}
