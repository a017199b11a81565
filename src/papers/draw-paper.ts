import { createWriteStream } from 'node:fs'
import { mkdtemp, readFile, rm, stat } from 'node:fs/promises'
import { tmpdir } from 'node:os'
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
import { writeCsv } from './csv.ts'
import { jsonText } from './json.ts'
import { PaperOrder, RECORDS_PAPER } from './order.ts'
import type { PaperSource } from './source.ts'
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
  /** The largest file that may leave; a larger paper becomes one for each month. */
  readonly mostBytes: number
  /** Records of a page. @default 250: read back with their links they hold about 5 MiB, a thousand of them about 25 */
  readonly rows?: number
}

const PAPER_ROWS = 250

/** A PDF keeps a little of each page in memory until its end, so that a long one is written by months at once. */
const MOST_ON_ONE_PDF = 2000

const TYPES = { csv: 'text/csv', pdf: 'application/pdf', json: 'application/json' } as const

/**
 * Writes a paper that a reply names, to disk, with one page of records in memory. One file, or one for each month when
 * a single one would be larger than may leave; a month alone is never split, and may still be too large.
 * @throws Error when there is no such paper; ZodError when the data are no order
 */
export async function* drawPaper(name: string, data: unknown, parts: PaperParts): AsyncGenerator<PaperFile> {
  if (name !== RECORDS_PAPER) throw new Error(`Cannot write a paper called "${name}"`)
  const order = PaperOrder.parse(data)
  const desk = await openDesk(order, parts)
  const folder = await mkdtemp(path.join(tmpdir(), 'swardhand-paper-'))
  try {
    const months = await desk.withStore((store) => store.records.months(order.filter, order.until.number))
    const count = months.reduce((sum, one) => sum + one.count, 0)
    const isLong = order.format === 'pdf' && count > MOST_ON_ONE_PDF
    if (!isLong || months.length < 2) {
      const limit = months.length < 2 ? Number.POSITIVE_INFINITY : parts.mostBytes
      const whole = await writeFile(folder, desk.source(order.asked, order.filter), { limit, part: null })
      if (whole !== null) {
        yield whole
        return
      }
    }
    for (const { month } of months) {
      const holds = `${order.asked}; ${month ?? 'day not recorded'}`
      const source = desk.source(holds, withinMonth(order.filter, month))
      const file = await writeFile(folder, source, {
        limit: Number.POSITIVE_INFINITY,
        part: month ?? 'no-day',
      })
      if (file !== null) {
        yield file
        await rm(file.path, { force: true })
      }
    }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

async function openDesk(order: PaperOrder, { database, words, rows = PAPER_ROWS }: PaperParts) {
  const withStore: WithStore = (work) => readOnly(database, (db) => work(crewStore(db, order.crewId)))
  const crew = await readOnly(database, (db) => getCrew(db, order.crewId))
  if (crew === undefined) throw new Error('Cannot write a paper for a crew that there is not')
  const sites = await withStore((store) => store.sites.listEver())
  const siteNames = new Map(sites.map((site) => [site.id, site.name]))
  const parts = { order, words, withStore, siteNames, rows }
  return {
    withStore,
    source: (holds: string, filter: RecordFilter): PaperSource => ({
      order,
      crew,
      holds,
      records: () => paperRecords(parts, filter),
    }),
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

/** Null when it grew over the limit; what was written of it is gone then. */
async function writeFile(
  folder: string,
  source: PaperSource,
  { limit, part }: { readonly limit: number; readonly part: string | null },
): Promise<PaperFile | null> {
  const { format, reader, day } = source.order
  const name = ['records', reader, day, ...(part === null ? [] : [part])].join('-').concat(`.${format}`)
  const place = path.join(folder, name)
  try {
    await writeTo(place, source, limit)
  } catch (error) {
    if (!(error instanceof TooLarge)) throw error
    await rm(place, { force: true })
    return null
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

async function writeTo(place: string, source: PaperSource, limit: number): Promise<void> {
  const out = [atMost(limit), createWriteStream(place, { mode: 0o600 })] as const
  if (source.order.format === 'csv') {
    const { input, shape } = writeCsv(source)
    await pipeline(Readable.from(input), shape, ...out)
  } else if (source.order.format === 'json') await pipeline(Readable.from(jsonText(source)), ...out)
  else {
    // Loaded when first needed: its fonts and tables take a while.
    const { writePdf } = await import('./pdf.ts')
    const { bytes, finished } = writePdf(source)
    await Promise.all([pipeline(bytes, ...out), finished])
  }
}

/** Passes bytes on, and stops the writing when they are too many. */
function atMost(limit: number): Transform {
  let total = 0
  return new Transform({
    transform(chunk: Buffer, _encoding, done) {
      total += chunk.byteLength
      if (total > limit) done(new TooLarge('More than may leave'))
      else done(null, chunk)
    },
  })
}
