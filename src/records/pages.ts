import type { Head } from '#src/record/chain.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { RecordFilter, RecordRow } from '#src/store/records.ts'
import type { RecordFound } from './read-record.ts'
import { recordReader } from './read-record.ts'

/** Rows that are read and held at a time. */
export const PAGE_ROWS = 1000

/** Does work on a crew's store in a short transaction of its own: a page, and then others have their turn. */
export type WithStore = <T>(work: (store: CrewStore) => Promise<T>) => Promise<T>

/** How far a reading goes. The chain is only ever added to, so that this makes every page part of one picture. */
export interface Until {
  /** The last record's number. */
  readonly number: number
  /** The newest link; null when nothing is kept yet. */
  readonly head: Head | null
}

/** Some records: their rows, and what they say, which is put together when somebody asks for it. */
export interface RecordPage {
  readonly rows: readonly RecordRow[]
  readonly read: (row: RecordRow) => RecordFound
  /** All of them, one after another. */
  readonly records: Iterable<RecordFound>
}

/** Everything that is kept by now. */
export async function untilNow(store: CrewStore): Promise<Until> {
  return { number: (await store.records.nextNumber()) - 1, head: await store.records.head() }
}

/**
 * All records of a filter by number, a page at a time: what was handed out is let go before the next page is read.
 * @param options.rows rows of a page
 * @param options.after number of the record after which to begin
 */
export async function* recordPages(
  withStore: WithStore,
  filter: RecordFilter,
  {
    until,
    rows = PAGE_ROWS,
    after: first = 0,
  }: { readonly until: Until; readonly rows?: number; readonly after?: number },
): AsyncGenerator<RecordPage, void, undefined> {
  let after = first
  for (;;) {
    const page = await withStore((store) => readPage(store, filter, { after, until, rows }))
    if (page.rows.length === 0) return
    after = page.rows.at(-1)?.number ?? after
    yield page
    if (page.rows.length < rows) return
  }
}

async function readPage(
  store: CrewStore,
  filter: RecordFilter,
  { after, until, rows }: { readonly after: number; readonly until: Until; readonly rows: number },
): Promise<RecordPage> {
  const found = await store.records.list(filter, { after, upTo: until.number, limit: rows })
  const read = await recordReader(store, found, until.head?.seq)
  return {
    rows: found,
    read,
    records: inTurn(found, read),
  }
}

/** What is made of each, when its turn has come. */
export function inTurn<From, Made>(all: readonly From[], make: (one: From) => Made): Iterable<Made> {
  return {
    *[Symbol.iterator]() {
      for (const one of all) yield make(one)
    },
  }
}
