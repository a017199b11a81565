import { copyFile, readFile } from 'node:fs/promises'
import { expect } from 'vitest'
import { drawPaper, type PaperFile, type PaperParts } from '#src/papers/draw-paper.ts'
import type { PaperOrder } from '#src/papers/order.ts'
import { untilNow } from '#src/records/pages.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { type Crew, findOrCreateCrew } from '#src/store/crews.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { loadWords } from '#src/words/load.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { aPerson } from '#tests/helpers/rows.ts'

export const words = loadWords()

/** Fills a crew of its own, and orders a paper of what it then has. */
export async function ordered(
  database: Database,
  fill: (store: CrewStore, personId: number) => Promise<Partial<PaperOrder>>,
  crew: Partial<Pick<Crew, 'key' | 'name' | 'demo'>> = {},
): Promise<PaperOrder> {
  return write(database, async (db) => {
    const made = await findOrCreateCrew(db, {
      key: 'test:papers',
      name: 'Invented crew',
      language: 'en',
      zone: 'America/New_York',
      atMs: NOON_MS,
      ...crew,
    })
    const store = crewStore(db, made.id)
    const { id: personId } = await aPerson(store)
    const parts = await fill(store, personId)
    const until = await untilNow(store)
    return {
      crewId: made.id,
      reader: 'inspector',
      format: 'csv',
      filter: {},
      until,
      day: '2025-07-04',
      asked: 'All records',
      ...parts,
    }
  })
}

export interface Written extends Pick<PaperFile, 'name' | 'type' | 'size' | 'path'> {
  readonly text: string
}

/** Draws every file of an order and reads it while it is there. */
export async function drawn(
  database: Database,
  order: PaperOrder,
  parts: Partial<Omit<PaperParts, 'database' | 'words'>> & { readonly keepIn?: string } = {},
): Promise<Written[]> {
  const { mostBytes = Number.POSITIVE_INFINITY, keepIn, ...rest } = parts
  const files: Written[] = []
  const options = { database, words, mostBytes, ...rest }
  for await (const { name, type, size, path } of drawPaper('records', order, options)) {
    const bytes = await readFile(path)
    expect(bytes.byteLength).toBe(size)
    if (keepIn !== undefined) await copyFile(path, keepIn)
    files.push({ name, type, size, path, text: bytes.toString('utf8') })
  }
  return files
}

/** The one file of an order. */
export async function drawnOne(...args: Parameters<typeof drawn>): Promise<Written> {
  const [file, ...more] = await drawn(...args)
  if (file === undefined || more.length > 0) throw new Error(`Cannot read one file from ${more.length + 1}`)
  return file
}
