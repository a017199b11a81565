import { randomBytes } from 'node:crypto'
import type { Tools } from '#src/desk/command.ts'
import { momentOf } from '#src/desk/moments.ts'
import { compareNumbers } from '#src/quantity/big.ts'
import { amend, sealAmendment } from '#src/record/amend.ts'
import { nextLink } from '#src/record/chain.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { amendmentName } from '#src/record/number.ts'
import { followRecord } from './follow-record.ts'
import type { Standing } from './standing.ts'

/**
 * Keeps with a record that it rained so many hours after its end, as an amendment. Only earlier rain than what is known
 * is new. Nothing that limits are counted by is touched: no day, no amount, no area.
 * @returns whether anything was written
 */
export async function keepRain(
  recordNumber: number,
  standing: Standing,
  hours: string,
  tools: Tools,
): Promise<boolean> {
  const { store, crew, person, nowMs, canWrite } = tools
  const known = recorded(standing.record.rainAfter)
  if (known !== undefined && compareNumbers(known.hours, hours) <= 0) return false
  const row = await store.records.find(recordNumber)
  if (row === undefined || !canWrite) return false
  const made = amend(standing, {
    number: amendmentName(recordNumber, standing.versions),
    at: momentOf(crew.zone, nowMs),
    by: { name: person.name, id: person.id },
    why: { words: `It rained ${hours} hours after the end.`, language: 'en' },
    changes: { rainAfter: { hours } },
  })
  if (!made.ok) return false
  const sealed = sealAmendment(made.value, () => randomBytes(32).toString('hex'))
  const link = nextLink(await store.records.head(), { kind: 'amendment', sealed })
  await store.records.append(link, recordNumber, nowMs)
  await followRecord(recordNumber, tools)
  return true
}
