/**
 * One export in a process of its own, so that what it takes of memory is its own: `bare-csv` and `bare-json` are what a
 * program cannot do without, reading every record with its links and personal values and writing one line for each, by
 * the CSV writer or as JSON. Prints JSON.
 */
import { createWriteStream, mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { stringify } from 'csv-stringify'
import { drawPaper } from '#src/papers/draw-paper.ts'
import { untilNow } from '#src/records/pages.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { listCrews } from '#src/store/crews-of.ts'
import { openDatabase } from '#src/store/open.ts'
import { Database } from '#src/store/sqlite-engine.ts'
import { readOnly } from '#src/store/transaction.ts'
import { loadWords } from '#src/words/load.ts'

const [file = '', way = ''] = process.argv.slice(2)
const EVERY_MS = 20
/** Larger than any messenger takes, so that everything goes into one file; a PDF still comes in parts. */
const NO_LIMIT = Number.POSITIVE_INFINITY

const WAYS: Readonly<Record<string, () => Work | Promise<Work>>> = {
  'bare-csv': bareCsv,
  'bare-json': bareJson,
  csv: () => ownPaper('csv'),
  json: () => ownPaper('json'),
  pdf: () => ownPaper('pdf'),
}
const start = WAYS[way]
if (start === undefined) throw new Error(`Cannot write a paper by "${way}"`)
const work = await start()
const before = process.memoryUsage().rss
let highest = before
const watch = setInterval(() => {
  highest = Math.max(highest, process.memoryUsage().rss)
}, EVERY_MS)
const [began, busy] = [performance.now(), process.cpuUsage()]
const bytes = await work.run()
const ms = performance.now() - began
const { user, system } = process.cpuUsage(busy)
const cpu_ms = (user + system) / 1000
clearInterval(watch)
await work.end()
process.stdout.write(
  `${JSON.stringify({ ms, cpu_ms, bytes, rss_before: before, rss_growth: highest - before })}\n`,
)

interface Work {
  /** Writes it, and gives its size in bytes. */
  run(): Promise<number>
  end(): unknown
}

interface Row {
  readonly crew_id: number
  readonly number: number
  readonly applied_on: string
  readonly id: number
  readonly seq: number
  readonly body: string
  readonly previous: string
  readonly hash: string
}

interface Value {
  readonly path: string
  readonly salt: string
  readonly value: string
}

/** Rows one after another, each with its personal values, written by `write` to a file of their own. */
function bare(
  columns: readonly string[],
  ofValue: readonly string[],
  write: (rows: Iterable<readonly [Row, readonly Value[]]>, place: string) => Promise<void>,
): Work {
  const db = new Database(file, { readonly: true })
  const personal = db.prepare(
    `select ${ofValue.join(', ')} from personal_values where crew_id = ? and link_id = ?`,
  )
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-bare-'))
  const place = path.join(folder, 'bare')
  function* rows() {
    const all = db
      .prepare(
        `select ${columns.join(', ')} from records r join chain_links l on l.id = r.link_id order by r.number`,
      )
      .iterate() as Iterable<Row>
    for (const row of all) yield [row, personal.all(row.crew_id, row.id) as Value[]] as const
  }
  return {
    async run() {
      await write(rows(), place)
      return statSync(place).size
    },
    end() {
      db.close()
      rmSync(folder, { recursive: true })
    },
  }
}

function bareCsv(): Work {
  const columns = ['r.crew_id', 'r.number', 'r.applied_on', 'l.id', 'l.body']
  return bare(columns, ['path', 'value'], async (rows, place) => {
    function* lines() {
      for (const [row, values] of rows) {
        const body = JSON.parse(row.body) as Record<string, unknown>
        yield [
          row.number,
          row.applied_on,
          ...Object.values(body).map((value) => JSON.stringify(value) ?? ''),
        ].concat(values.map(({ value }) => value))
      }
    }
    await pipeline(Readable.from(lines()), stringify({ quoted: true }), createWriteStream(place))
  })
}

/** What our own JSON holds of a link too: its place, its hashes, and the personal values with their salts. */
function bareJson(): Work {
  const columns = ['r.crew_id', 'r.number', 'r.applied_on', 'l.id', 'l.seq', 'l.body', 'l.previous', 'l.hash']
  return bare(columns, ['path', 'salt', 'value'], async (rows, place) => {
    function* lines() {
      for (const [row, values] of rows) {
        const body = JSON.parse(row.body) as unknown
        const personal = values.map(({ value, ...one }) => ({ ...one, value: JSON.parse(value) as unknown }))
        yield `${JSON.stringify({ ...row, body, personal })}\n`
      }
    }
    await pipeline(Readable.from(lines()), createWriteStream(place))
  })
}

async function ownPaper(format: 'csv' | 'json' | 'pdf'): Promise<Work> {
  const database = await openDatabase({ engine: 'sqlite', path: file }, 'practice')
  const words = loadWords()
  const order = await readOnly(database, async (db) => {
    const [crew] = await listCrews(db)
    if (crew === undefined) throw new Error('No crew has records there')
    const until = await untilNow(crewStore(db, crew.id))
    return {
      crewId: crew.id,
      reader: 'inspector',
      format,
      filter: {},
      until,
      day: '2026-07-01',
      asked: 'All records',
    }
  })
  return {
    async run() {
      let size = 0
      for await (const paper of drawPaper('records', order, { database, words, mostBytes: NO_LIMIT }))
        size += paper.size
      return size
    },
    end: () => database.close(),
  }
}
