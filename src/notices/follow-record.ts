import type { Tools } from '#src/desk/command.ts'
import { readSound } from '#src/records/read-record.ts'
import { moveStock } from '#src/stock/move-stock.ts'
import { planNotices, withdrawNotices } from './plan.ts'

/**
 * Everything that follows from a record as it stands: what others are told, the stock, and the week's summary. To be
 * called when a record is kept, amended or voided, after its links and its row are written. Calling it again changes
 * nothing.
 */
export async function followRecord(recordNumber: number, tools: Tools): Promise<void> {
  const found = await readSound(tools.store, recordNumber)
  if (found === undefined) return
  if (found.current.voidedBy === null) await planNotices(found, tools)
  else await withdrawNotices(found, tools)
  await moveStock(found, tools)
}
