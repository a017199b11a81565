import { setImmediate as breathe } from 'node:timers/promises'
import type { LabelEntry } from '#src/label/entry.ts'
import { sayElement } from '#src/record/complete.ts'
import { entriesOf, lacksOf } from '#src/records/lacks.ts'
import type { WithStore } from '#src/records/pages.ts'
import { recordPages } from '#src/records/pages.ts'
import type { RecordFound, RecordRead, RecordUnreadable } from '#src/records/read-record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { Crew } from '#src/store/crews.ts'
import type { RecordFilter } from '#src/store/records.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speakForRecord } from '#src/words/speak.ts'
import type { PaperOrder } from './order.ts'
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

/** Everything that a paper is written from. */
export interface PaperSource {
  readonly order: PaperOrder
  readonly crew: Crew
  /** What this file holds of the order: all of it, or one month. */
  readonly holds: string
  /** Records one after another; a page of them is held, never more. */
  readonly records: () => AsyncIterable<PaperRecord>
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

/** After so many records others have their turn: a paper must not hold up a crew. */
const BREATH = 20

/** The records of an order, a page at a time. */
export async function* paperRecords(
  { order, words, withStore, rows }: SourceParts,
  filter: RecordFilter,
  stretch: Stretch = { after: 0, upTo: order.until.number },
): AsyncGenerator<PaperRecord, void, undefined> {
  const { reader } = order
  const until = { ...order.until, number: stretch.upTo }
  let done = 0
  for await (const page of recordPages(withStore, filter, {
    until,
    after: stretch.after,
    ...(rows === undefined ? {} : { rows }),
  })) {
    // Of this page alone: a crew of many years has more places than may be held.
    const ids = page.rows.flatMap(({ siteId }) => siteId ?? [])
    const siteNames = ids.length === 0 ? NO_NAMES : await withStore(({ sites }) => sites.namesOf(ids))
    for (const found of page.records) {
      done += 1
      if (done % BREATH === 0) await breathe()
      const site = siteOf(found, siteNames)
      if (found.kind === 'unreadable') yield { ...found, site }
      else {
        const needsStore = (reader === 'inspector' && !found.row.complete) || reader === 'treating'
        const beside = needsStore ? await withStore((store) => besideOf(store, found, order, words)) : NOTHING
        yield { ...recordFor(reader, found), site, ...beside }
      }
    }
  }
}

const NO_NAMES: ReadonlyMap<number, string> = new Map()

const NOTHING = { lacks: [], entries: [] }

async function besideOf(store: CrewStore, found: RecordRead, { reader }: PaperOrder, words: Catalogue) {
  if (reader === 'treating') return { lacks: [], entries: await entriesOf(store, found.current.record) }
  const { missing, problems } = await lacksOf(store, found)
  return {
    lacks: [
      ...missing.map(({ element }) => speakForRecord(words, sayElement(element))),
      ...problems.map(({ text }) => speakForRecord(words, text).replace(/\.$/, '')),
    ],
    entries: [],
  }
}

function siteOf({ row }: RecordFound, names: ReadonlyMap<number, string>): string {
  return row.siteId === null ? '' : (names.get(row.siteId) ?? '')
}
