import Fuse from 'fuse.js'
import type { Suggest, Suggestion } from '#src/conversation/ask.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { findCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { readOnly } from '#src/store/transaction.ts'
import { pairIndex } from './pair-index.ts'
import { metaOf } from './parse-options.ts'
import type { Registry } from './registry.ts'

/** The most that a messenger shows. */
const SHOWN = 25
/** How unlike a name may be and still be offered: one slip in a short name, several in a long one. */
const THRESHOLD = 0.45

/** How many names, alike at a glance, are compared letter by letter. */
const COMPARED = 150
const FUSE = {
  keys: [
    { name: 'name', weight: 2 },
    { name: 'also', weight: 1 },
  ],
  threshold: THRESHOLD,
  ignoreLocation: true,
  ignoreDiacritics: true,
}

/** A list of names for one kind of option, and on what else it depends. */
export interface NameSource {
  readonly list: (store: CrewStore) => Promise<readonly Name[]>
}
export interface Name {
  readonly name: string
  /** Only offered beside this other option's value: areas of the site already chosen. */
  readonly within?: string
  /** Other words for the same thing, searched as well. */
  readonly also?: readonly string[]
}

interface Names {
  readonly revision: number
  readonly bySource: Map<string, NameIndex>
}
interface NameIndex {
  readonly names: readonly Name[]
  /** Every value of `within`. */
  readonly containers: ReadonlySet<string>
  /** Positions of the names that look most like a text, best first. */
  readonly findAlike: (text: string, limit: number) => readonly number[]
}

const KEPT_CREWS = 500

/**
 * Completes an option while it is typed. Names of a crew stay in memory until its book changes; nothing is written.
 * `fixed` lists do not depend on a crew (taxa, characters).
 */
export function openSuggestions(parts: {
  readonly database: Database
  readonly registry: Registry
  readonly sources: Readonly<Record<string, NameSource>>
  readonly custom?: Readonly<Record<string, (asked: Suggest) => readonly Suggestion[]>>
}): (asked: Suggest) => Promise<readonly Suggestion[]> {
  const crews = new Map<string, Names>()

  return async (asked) => {
    const schema = parts.registry.get(asked.command)?.options.shape[asked.option]
    const kind = schema === undefined ? undefined : metaOf(schema).suggest
    if (kind === undefined) return []
    const custom = parts.custom?.[kind]
    if (custom !== undefined) return custom(asked).slice(0, SHOWN)
    const source = parts.sources[kind]
    if (source === undefined) return []
    const index = await namesFor(asked.by.crewKey, kind, source)
    return search(index, asked)
  }

  async function namesFor(crewKey: string, kind: string, source: NameSource): Promise<NameIndex> {
    const known = crews.get(crewKey)
    return readOnly(parts.database, async (transaction) => {
      const crew = await findCrew(transaction, crewKey)
      if (crew === undefined) return indexOf([])
      const names =
        known?.revision === crew.bookRevision
          ? known
          : { revision: crew.bookRevision, bySource: new Map<string, NameIndex>() }
      if (crews.size > KEPT_CREWS) crews.clear()
      crews.set(crewKey, names)
      const index = names.bySource.get(kind) ?? indexOf(await source.list(crewStore(transaction, crew.id)))
      names.bySource.set(kind, index)
      return index
    })
  }
}

export function indexOf(names: readonly Name[]): NameIndex {
  return {
    names,
    containers: new Set(names.flatMap(({ within }) => within ?? [])),
    findAlike: pairIndex(names.map(({ name, also = [] }) => [name, ...also].join(' '))),
  }
}

function search(index: NameIndex, asked: Suggest): Suggestion[] {
  const chosen = Object.values(asked.options).find((value) => index.containers.has(String(value)))
  const within =
    chosen === undefined
      ? index
      : indexOf(index.names.filter((name) => name.within === undefined || name.within === String(chosen)))
  const unique = [...new Set(rank(within, asked.typed).map(({ name }) => name))]
  return unique.slice(0, SHOWN).map((name) => ({ name, value: name }))
}

/**
 * Names that fit what is typed so far, best first; all of them when nothing is typed. A look at pairs of letters
 * leaves a few names to compare closely: comparing all of 5,000 takes 20 ms a keystroke, in which nothing else runs.
 */
export function rank({ names, findAlike }: NameIndex, typed: string): readonly Name[] {
  const wanted = typed.trim()
  if (wanted === '') return names
  const alike = findAlike(wanted, COMPARED).flatMap((at) => names[at] ?? [])
  return new Fuse(alike, FUSE).search(wanted).map((found) => found.item)
}
