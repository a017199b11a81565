import { createWriteStream } from 'node:fs'
import { readFile, rm, stat } from 'node:fs/promises'
import path from 'node:path'
import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { WithStore } from '#src/records/pages.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { getCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import type { RecordFilter } from '#src/store/records.ts'
import { readOnly } from '#src/store/transaction.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { inChunks } from './chunks.ts'
import { csvText } from './csv.ts'
import { jsonText } from './json.ts'
import { PaperOrder, RECORDS_PAPER } from './order.ts'
import { paperFolder } from './paper-folder.ts'
import { MOST_AT_ONCE } from './pieces.ts'
import type { PaperRecord, PaperSource, Stretch } from './source.ts'
import { paperRecords } from './source.ts'

/** A written paper. It lies on disk until the next one is asked for. */
export interface PaperFile {
  readonly name: string
  readonly type: string
  readonly size: number
  readonly alt: Text
  readonly path: string
  read(): Promise<Uint8Array>
}

export interface PaperParts {
  readonly database: Database
  readonly words: Catalogue
  /** The largest file that may leave; a larger paper becomes one for each month, or parts of months. */
  readonly mostBytes: number
  /** Records of a page. @default 50: read back with their links they hold about 1 MiB, and are let go while young */
  readonly rows?: number
  /** Records of one PDF, as many as leave at once. @default 1000: it keeps a little of each page in memory until its end */
  readonly onOnePdf?: number
}

const PAPER_ROWS = 50

const ON_ONE_PDF = MOST_AT_ONCE

/** The part for records whose day nobody wrote down. */
const NO_DAY = 'no-day'

const TYPES = { csv: 'text/csv', pdf: 'application/pdf', json: 'application/json' } as const

/**
 * Writes a paper that a reply names, to disk, with one page of records in memory. One file, or one for each month when
 * a single one would be larger than may leave; a month that is still too large comes in parts. One record alone is
 * never split.
 * @throws Error when there is no such paper; ZodError when the data are no order
 */
export async function* drawPaper(name: string, data: unknown, parts: PaperParts): AsyncGenerator<PaperFile> {
  if (name !== RECORDS_PAPER) throw new Error(`Cannot write a paper called "${name}"`)
  const order = PaperOrder.parse(data)
  const desk = await openDesk(order, parts)
  const folder = await paperFolder()
  const all = { after: 0, upTo: order.until.number }
  try {
    const months = await desk.withStore((store) => store.records.months(order.filter, all.upTo))
    if ((await desk.reach(order.filter, all)) === all.upTo) {
      const whole = await writeFile(folder, desk.job(order.filter, all, null), parts.mostBytes)
      if ('path' in whole) {
        yield whole
        return
      }
    }
    for (const { month } of months) {
      const filter = withinMonth(order.filter, month)
      for await (const file of inParts(
        folder,
        { desk, filter, part: month ?? NO_DAY, all },
        parts.mostBytes,
      )) {
        yield file
        await rm(file.path, { force: true })
      }
    }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** One file to write: which records, and what it is called beside the others. */
interface Job {
  readonly part: string | null
  readonly source: PaperSource
}

type Desk = Awaited<ReturnType<typeof openDesk>>

async function openDesk(
  order: PaperOrder,
  { database, words, rows = PAPER_ROWS, onOnePdf = ON_ONE_PDF }: PaperParts,
) {
  const withStore: WithStore = (work) => readOnly(database, (db) => work(crewStore(db, order.crewId)))
  const crew = await readOnly(database, (db) => getCrew(db, order.crewId))
  if (crew === undefined) throw new Error('Cannot write a paper for a crew that there is not')
  const parts = { order, words, withStore, rows }
  return {
    withStore,

    job: (filter: RecordFilter, stretch: Stretch, part: string | null): Job => ({
      part,
      source: {
        order,
        crew,
        holds: part === null ? order.asked : `${order.asked}; ${part.replace(NO_DAY, 'day not recorded')}`,
        records: () => paperRecords(parts, filter, stretch),
      },
    }),

    /** The last record that one file takes, by their number alone. */
    async reach(filter: RecordFilter, { after, upTo }: Stretch): Promise<number> {
      if (order.format !== 'pdf') return upTo
      const found = await withStore(({ records }) =>
        records.list(filter, { after, upTo, limit: onOnePdf + 1 }),
      )
      return found.length > onOnePdf ? (found.at(-2)?.number ?? upTo) : upTo
    },
  }
}

interface Month {
  readonly desk: Desk
  readonly filter: RecordFilter
  readonly part: string
  readonly all: Stretch
}

/**
 * A month as one file, or as several one after another where it is too large for one. How much fits is known only when
 * it is written, since records differ: what did not fit is written again with fewer of them.
 */
async function* inParts(folder: string, month: Month, mostBytes: number): AsyncGenerator<PaperFile> {
  const { desk, filter, all } = month
  let [after, at] = [all.after, 1]
  while (after < all.upTo) {
    let upTo = await desk.reach(filter, { after, upTo: all.upTo })
    for (;;) {
      const part = at === 1 && upTo === all.upTo ? month.part : `${month.part}-part-${at}`
      const file = await writeFile(folder, desk.job(filter, { after, upTo }, part), mostBytes)
      if ('path' in file) {
        yield file
        break
      }
      upTo = file.fits
    }
    after = upTo
    at += 1
  }
}

/** The filter within one month, or for those whose day nobody wrote down. */
function withinMonth(filter: RecordFilter, month: string | null): RecordFilter {
  if (month === null) return { ...filter, noDay: true }
  const [first, last] = [`${month}-01`, `${month}-31`]
  const { from = first, to = last } = filter
  return { ...filter, from: [from, first].sort().at(-1), to: [to, last].sort().at(0) }
}

class TooLarge extends Error {}

/** How many records were written before a file was too large, as a share of which is written the next time. */
const SHARE = 0.75

/** What was written is gone again: up to which record it may fit. */
interface TooMuch {
  readonly fits: number
}

/** Writes one file; one that holds a single record is written however large it is. */
async function writeFile(folder: string, job: Job, mostBytes: number): Promise<PaperFile | TooMuch> {
  const { part, source } = job
  const { format, reader, day } = source.order
  const name = ['records', reader, day, ...(part === null ? [] : [part])].join('-').concat(`.${format}`)
  const place = path.join(folder, name)
  const written = counted(source)
  try {
    await writeTo(place, written.source, () => (written.count() > 1 ? mostBytes : Number.POSITIVE_INFINITY))
  } catch (error) {
    if (!(error instanceof TooLarge)) throw error
    await rm(place, { force: true })
    return { fits: written.numberAt(SHARE) }
  }
  const { size } = await stat(place)
  const file = { literal: name }
  return {
    name,
    type: TYPES[format],
    size,
    alt:
      part === null ? say('papers.alt', { file }) : say('papers.alt-part', { file, part: { literal: part } }),
    path: place,
    read: () => readFile(place),
  }
}

interface Counted {
  readonly source: PaperSource
  /** How many records went by. */
  count(): number
  /** Number of the record by which about this share of them had gone by; 0 before the first. */
  numberAt(share: number): number
}

/** So many numbers tell well enough where a file was how far. */
const MOST_NOTED = 1000

/** The same records, with a note of every so many of those that went by, the more the wider apart. */
function counted(source: PaperSource): Counted {
  let [count, step, noted] = [0, 1, [] as number[]]
  function note({ row }: PaperRecord): void {
    if (count % step === 0) noted.push(row.number)
    count += 1
    if (noted.length <= MOST_NOTED) return
    noted = noted.filter((_, at) => at % 2 === 0)
    step *= 2
  }
  function* noting(few: Iterable<PaperRecord>) {
    for (const record of few) {
      note(record)
      yield record
    }
  }
  async function* records() {
    for await (const few of source.records()) yield noting(few)
  }
  return {
    source: { ...source, records },
    count: () => count,
    numberAt: (share) => noted[Math.max(0, Math.floor((count * share) / step) - 1)] ?? 0,
  }
}

/** Bytes that may wait for the disk before writing goes on. */
const MOST_WAITING = 256 * 1024

async function writeTo(place: string, source: PaperSource, limit: () => number): Promise<void> {
  const out = [atMost(limit), createWriteStream(place, { mode: 0o600, highWaterMark: MOST_WAITING })] as const
  const { format } = source.order
  if (format === 'pdf') {
    // Loaded when first needed: its fonts and tables take a while.
    const { writePdf } = await import('./pdf.ts')
    const { bytes, finished } = writePdf(source)
    await Promise.all([pipeline(bytes, ...out), finished])
  } else {
    const text = format === 'csv' ? csvText(source) : jsonText(source)
    await pipeline(Readable.from(inChunks(text), { highWaterMark: 1 }), ...out)
  }
}

/** Passes bytes on, and stops the writing when they are too many. */
function atMost(limit: () => number): Transform {
  let total = 0
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      total += chunk.byteLength
      if (total > limit()) done(new TooLarge('More than may leave'))
      else done(null, chunk)
    },
  })
}
