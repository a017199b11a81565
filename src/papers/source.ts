import { setImmediate as breathe } from 'node:timers/promises'
import type { LabelEntry } from '#src/label/entry.ts'
import { sayElement } from '#src/record/complete.ts'
import { entriesOfAll, type Lacks, lacksOfAll } from '#src/records/lacks.ts'
import { inTurn, recordPages, type WithStore } from '#src/records/pages.ts'
import type { RecordFound, RecordRead, RecordUnreadable } from '#src/records/read-record.ts'
import { noLacks } from '#src/records/say-row.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { Crew } from '#src/store/crews.ts'
import type { RecordFilter, RecordRow } from '#src/store/records.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speakForRecord } from '#src/words/speak.ts'
import type { PaperOrder, Reader } from './order.ts'
import { recordFor } from './readers.ts'

/** One record on a paper, as its reader gets it, with what stands beside it. */
export type PaperRecord = PaperRead | (RecordUnreadable & { readonly site: string })

export interface PaperRead extends RecordRead {
  readonly site: string
  /** English names of what it lacks; empty for a complete one. */
  readonly lacks: readonly string[]
  /** Label entries of its products, for whoever treats somebody; else empty. */
  readonly entries: readonly LabelEntry[]
}

/**
 * Records, a few at a time, each put together when its turn has come; a page of them is held as texts, never more.
 * Between the few others have their turn: a paper must not hold up a crew.
 */
export type PaperRecords = AsyncIterable<Iterable<PaperRecord>>

/** Everything that a paper is written from. */
export interface PaperSource {
  readonly order: PaperOrder
  readonly crew: Crew
  /** What this file holds of the order: all of it, or one month. */
  readonly holds: string
  readonly records: () => PaperRecords
}

/** Records by number, from the first after `after` to `upTo`. */
export interface Stretch {
  readonly after: number
  readonly upTo: number
}

export interface SourceParts {
  readonly order: PaperOrder
  readonly words: Catalogue
  readonly withStore: WithStore
  /** Rows of a page, where it should not be the usual thousand. */
  readonly rows?: number
}

/** After so many records others have their turn. */
const FEW = 20

/** The records of an order, a page at a time. */
export async function* paperRecords(
  { order, words, withStore, rows }: SourceParts,
  filter: RecordFilter,
  stretch: Stretch = { after: 0, upTo: order.until.number },
): AsyncGenerator<Iterable<PaperRecord>, void, undefined> {
  const until = { ...order.until, number: stretch.upTo }
  for await (const page of recordPages(withStore, filter, {
    until,
    after: stretch.after,
    ...(rows === undefined ? {} : { rows }),
  })) {
    // Of this page alone: a crew of many years has more places than may be held.
    const ids = page.rows.flatMap(({ siteId }) => siteId ?? [])
    const names = ids.length === 0 ? NO_NAMES : await withStore(({ sites }) => sites.namesOf(ids))
    for (let at = 0; at < page.rows.length; at += FEW) {
      const few = page.rows.slice(at, at + FEW)
      yield needsStore(order.reader, few)
        ? await withStore((store) => withBeside(store, few.map(page.read), { order, words, names }))
        : inTurn(few, (row) => asRead(page.read(row), NOTHING, { order, names }))
      await breathe()
    }
  }
}

const NO_NAMES: ReadonlyMap<number, string> = new Map()

type Beside = Pick<PaperRead, 'lacks' | 'entries'>
const NOTHING: Beside = { lacks: [], entries: [] }

interface On {
  readonly order: PaperOrder
  /** Names of places, by their ids. */
  readonly names: ReadonlyMap<number, string>
}

function asRead(found: RecordFound, beside: Beside, { order, names }: On): PaperRecord {
  const { siteId } = found.row
  const site = siteId === null ? '' : (names.get(siteId) ?? '')
  if (found.kind === 'unreadable') return { ...found, site }
  return { ...recordFor(order.reader, found), site, ...beside }
}

function needsStore(reader: Reader, rows: readonly RecordRow[]): boolean {
  return reader === 'treating' || (reader === 'inspector' && rows.some(({ complete }) => !complete))
}

/** The store is asked once for all of them. */
async function withBeside(
  store: CrewStore,
  all: readonly RecordFound[],
  { words, ...on }: On & { readonly words: Catalogue },
): Promise<readonly PaperRecord[]> {
  const read = all.filter((found) => found.kind === 'read')
  const beside = new Map<RecordFound, Beside>()
  if (on.order.reader === 'treating') {
    const entries = await entriesOfAll(
      store,
      read.map(({ current }) => current.record),
    )
    for (const [at, found] of read.entries()) beside.set(found, { lacks: [], entries: entries[at] ?? [] })
  } else {
    const lacks = await lacksOfAll(store, read)
    for (const [at, found] of read.entries())
      beside.set(found, { lacks: sayLacks(lacks[at] ?? noLacks, words), entries: [] })
  }
  return all.map((found) => asRead(found, beside.get(found) ?? NOTHING, on))
}

function sayLacks({ missing, problems }: Lacks, words: Catalogue): readonly string[] {
  return [
    ...missing.map(({ element }) => speakForRecord(words, sayElement(element))),
    ...problems.map(({ text }) => speakForRecord(words, text).replace(/\.$/, '')),
  ]
}
