import type { Tools } from '#src/desk/command.ts'
import { moveStock } from '#src/stock/move-stock.ts'
import { planNotices, withdrawNotices } from './plan.ts'
import { standingOf } from './standing.ts'

/**
 * Everything that follows from a record as it stands: what others are told, the stock, and the week's summary. To be
 * called when a record is kept, amended or voided, after its links and its row are written. Calling it again changes
 * nothing.
 */
export async function followRecord(recordNumber: number, tools: Tools): Promise<void> {
  const standing = await standingOf(tools.store, recordNumber)
  if (standing === undefined) return
  if (standing.voidedBy === null) await planNotices(standing.record, recordNumber, tools)
  else await withdrawNotices(recordNumber, tools)
  await moveStock(recordNumber, tools)
}
