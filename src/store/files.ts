import type { StoredFile } from '#src/conversation/ask.ts'
import type { Transaction } from './transaction.ts'

export function filesOf(db: Transaction, crewId: number) {
  return {
    /** Notes that kept bytes belong to something: 'site' and its id, 'turn' and its id. */
    async attach(file: StoredFile, about: string, aboutId: number, atMs: number): Promise<void> {
      await db
        .insertInto('files')
        .values({
          crewId,
          blob: file.blob,
          name: file.name,
          type: file.type,
          bytes: file.bytes,
          about,
          aboutId,
          createdAtMs: atMs,
        })
        .execute()
    },

    async list(about: string, aboutId: number): Promise<StoredFile[]> {
      return db
        .selectFrom('files')
        .select(['blob', 'name', 'type', 'bytes'])
        .where('crewId', '=', crewId)
        .where('about', '=', about)
        .where('aboutId', '=', aboutId)
        .orderBy('id')
        .execute()
    },
  }
}

/** Hashes of all kept files that rows name, of all crews, for a backup. */
export async function blobsNamed(db: Transaction): Promise<string[]> {
  const rows = await db.selectFrom('files').select('blob').distinct().orderBy('blob').execute()
  return rows.map(({ blob }) => blob)
}
