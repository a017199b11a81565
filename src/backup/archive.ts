import { createReadStream } from 'node:fs'
import { mkdir, open } from 'node:fs/promises'
import path from 'node:path'
import { createInterface } from 'node:readline'
import { type Cells, digester, lineOf, rowsOf, type TableDigest } from '#src/store/rows.ts'
import type { TableShape } from '#src/store/schema-at.ts'
import type { Transaction } from '#src/store/transaction.ts'
import { OWN_FILE, OWN_FOLDER, syncPath } from './on-disk.ts'

const fileOf = (folder: string, table: string) => path.join(folder, `${table}.jsonl`)

/** Writes every table as a file of lines, a row a line: a JSON array of its values in the order of the columns. */
export async function writeArchive(
  db: Transaction,
  shapes: readonly TableShape[],
  folder: string,
): Promise<Record<string, TableDigest>> {
  await mkdir(folder, OWN_FOLDER)
  const digests: Record<string, TableDigest> = {}
  for (const shape of shapes) {
    const digest = digester()
    const file = await open(fileOf(folder, shape.name), 'wx', OWN_FILE)
    try {
      for await (const page of rowsOf(db, shape)) {
        const lines = page.map(lineOf)
        digest.add(lines)
        await file.writeFile(lines.join(''))
      }
      await file.sync()
    } finally {
      await file.close()
    }
    digests[shape.name] = digest.digest()
  }
  await syncPath(folder)
  return digests
}

const PAGE = 1000

/** Rows of a table as they were archived, a page at a time. */
export async function* readArchive(folder: string, table: string): AsyncGenerator<readonly Cells[]> {
  const lines = createInterface({ input: createReadStream(fileOf(folder, table), 'utf8'), crlfDelay: 0 })
  let page: Cells[] = []
  for await (const line of lines) {
    if (line === '') continue
    page.push(JSON.parse(line) as Cells)
    if (page.length < PAGE) continue
    yield page
    page = []
  }
  if (page.length > 0) yield page
}

/** Counts and hashes what was archived, by reading it back. */
export async function digestArchive(
  folder: string,
  tables: readonly string[],
): Promise<Record<string, TableDigest>> {
  const digests: Record<string, TableDigest> = {}
  for (const table of tables) {
    const digest = digester()
    for await (const page of readArchive(folder, table)) digest.add(page.map(lineOf))
    digests[table] = digest.digest()
  }
  return digests
}
