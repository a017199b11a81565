import { Database } from './sqlite-engine.ts'

/** All pages in one step: taken in several, a copy begins anew whenever somebody writes, and may never end. */
const ALL_PAGES = 0x7fffffff

/** Copies a store while others read and write it, as it stands at one moment, into one file without a journal beside it. */
export async function copySqlite(from: string, to: string): Promise<void> {
  const source = new Database(from, { readonly: true, fileMustExist: true })
  try {
    await source.backup(to, { progress: () => ALL_PAGES })
  } finally {
    source.close()
  }
  const copy = new Database(to)
  try {
    copy.pragma('journal_mode = DELETE')
  } finally {
    copy.close()
  }
}

/** What the engine itself finds wrong with a file; nothing for a sound one. */
export function problemsOfSqlite(file: string): string[] {
  const db = new Database(file, { readonly: true, fileMustExist: true })
  try {
    const found = db.pragma('integrity_check') as { readonly integrity_check: string }[]
    const loose = db.pragma('foreign_key_check') as { readonly table: string }[]
    return [
      ...found.map((row) => row.integrity_check).filter((says) => says !== 'ok'),
      ...loose.map(({ table }) => `a row of ${table} has lost what it belongs to`),
    ]
  } finally {
    db.close()
  }
}
