import type { Tools } from '#src/desk/command.ts'
import { compareNumbers } from '#src/quantity/big.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { keepAmendment } from '#src/records/keep-link.ts'
import type { RecordRead } from '#src/records/read-record.ts'
import { followRecord } from './follow-record.ts'

/**
 * Keeps with a record that it rained so many hours after its end, as an amendment. Only earlier rain than what is known
 * is new. Nothing that limits are counted by is touched: no day, no amount, no area.
 * @returns whether anything was written
 */
export async function keepRain(found: RecordRead, hours: string, tools: Tools): Promise<boolean> {
  const known = recorded(found.current.record.rainAfter)
  if (known !== undefined && compareNumbers(known.hours, hours) <= 0) return false
  if (!tools.canWrite) return false
  const why = { words: `It rained ${hours} hours after the end.`, language: 'en' }
  const made = await keepAmendment(found, { why, changes: { rainAfter: { hours } } }, tools)
  if (!made.ok) return false
  await followRecord(found.row.number, tools)
  return true
}
