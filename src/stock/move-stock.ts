import type { Tools } from '#src/desk/command.ts'
import { tellLeads } from '#src/mixing/tell-leads.ts'
import { endOf } from '#src/notices/moments.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { RecordRead } from '#src/records/read-record.ts'
import { isWatched, onHandOf } from './book.ts'
import { sayLow } from './words.ts'

/**
 * Brings the stock up to a record as it stands: to be called when one is kept, amended or voided, after its links are
 * written. Calling it again for the same version changes nothing. Leads hear once of what has become low.
 */
export async function moveStock({ row, current, links }: RecordRead, tools: Tools): Promise<void> {
  const { store, crew, person, nowMs, canWrite } = tools
  if (!canWrite) return
  const { record, voidedBy } = current
  const atMs = endOf(record, crew.zone)
  const products = voidedBy === null ? (recorded(record.products) ?? []) : []
  const used = products.flatMap(({ name, amount }) => {
    const known = recorded(amount)
    return known === undefined ? [] : [{ product: name, amount: known, atMs }]
  })
  await store.stock.use({ number: row.number, version: links.length, personId: person.id }, used, nowMs)
  for (const product of new Set(used.map((one) => one.product))) await tellWhenLow(product, tools)
}

/** Tells the leads of a product below its mark, once until more comes in, or it is counted or marked anew. */
export async function tellWhenLow(product: string, tools: Tools): Promise<void> {
  if (!(await isWatched(product, tools.store))) return
  const there = await onHandOf(product, tools.store)
  if (!there.isLow) return
  await tellLeads(sayLow(there), `stock-low-${there.since}`, tools)
}
