/**
 * One export in a process of its own, so that what it takes of memory is its own: `bare` is what a program cannot do
 * without, reading every record with its links and personal values and writing one line of CSV for each. Prints JSON.
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

const [file = '', way = 'bare'] = process.argv.slice(2)
const EVERY_MS = 20
/** Larger than any messenger takes, so that everything goes into one file; a PDF still comes in parts. */
const NO_LIMIT = Number.POSITIVE_INFINITY

const work = way === 'bare' ? await bareCsv() : await ownPaper(way as 'csv' | 'json' | 'pdf')
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

async function bareCsv() {
  const db = new Database(file, { readonly: true })
  const personal = db.prepare('select path, value from personal_values where crew_id = ? and link_id = ?')
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-bare-'))
  const place = path.join(folder, 'bare.csv')
  function* lines() {
    const rows = db
      .prepare(
        'select r.crew_id, r.number, r.applied_on, l.id, l.body from records r join chain_links l on l.id = r.link_id order by r.number',
      )
      .iterate()
    for (const row of rows as Iterable<{
      crew_id: number
      number: number
      applied_on: string
      id: number
      body: string
    }>) {
      const values = personal.all(row.crew_id, row.id) as { path: string; value: string }[]
      const body = JSON.parse(row.body) as Record<string, unknown>
      yield [
        row.number,
        row.applied_on,
        ...Object.values(body).map((value) => JSON.stringify(value) ?? ''),
      ].concat(values.map(({ value }) => value))
    }
  }
  return {
    async run() {
      await pipeline(Readable.from(lines()), stringify({ quoted: true }), createWriteStream(place))
      return statSync(place).size
    },
    async end() {
      db.close()
      rmSync(folder, { recursive: true })
    },
  }
}

async function ownPaper(format: 'csv' | 'json' | 'pdf') {
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
