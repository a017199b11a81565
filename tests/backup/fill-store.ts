import type { Json } from '#src/record/canonical.ts'
import { nextLink } from '#src/record/chain.ts'
import { seal } from '#src/record/seal.ts'
import { blobsIn } from '#src/store/blobs.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { NEWEST_SCHEMA } from '#src/store/migrate.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { anyRows, fillAny } from '#tests/helpers/any-rows.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { record as aRecord, saltOf } from '#tests/record/build.ts'

export const CHAIN = ['chain_links', 'personal_values']
/** What refers to a link of the chain, or to a record. */
const BESIDE_CHAIN = ['records', 'record_products', 'visits', 'plots', 'ratings']

/** Rows in every table, a chain of records that holds for each of two crews, and two photos. */
export async function fillStore(database: Database, filesFolder: string): Promise<void> {
  const rows = await anyRows(NEWEST_SCHEMA)
  const among = (wanted: (name: string) => boolean) => new Map([...rows].filter(([{ name }]) => wanted(name)))
  await fillAny(
    database,
    among((name) => !CHAIN.includes(name) && !BESIDE_CHAIN.includes(name)),
  )
  const blob = await blobsIn(filesFolder).keep(Buffer.from('a photo'))
  await blobsIn(filesFolder).keep(Buffer.from('another photo'))
  await database.db
    .updateTable('files')
    .set({ blob } as never)
    .execute()
  await write(database, async (db) => {
    // In turns, as the made-up rows are: a record and its link are then of one crew.
    for (const number of [1, 2, 3]) {
      for (const crewId of [1, 2]) {
        const { records } = crewStore(db, crewId)
        const body = aRecord({ county: `County ${number}`, number: `R-${number}` }) as unknown as Json
        const link = nextLink(await records.head(), { kind: 'record', sealed: seal(body, saltOf) })
        await records.append(link, number, NOON_MS)
      }
    }
  })
  await fillAny(
    database,
    among((name) => BESIDE_CHAIN.includes(name)),
  )
}
