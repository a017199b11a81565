import { randomBytes } from 'node:crypto'
import type { Tools } from '#src/desk/command.ts'
import { momentOf } from '#src/desk/moments.ts'
import type { Result } from '#src/quantity/result.ts'
import {
  type Amendment,
  type AmendProblem,
  amend,
  type NewAmendment,
  sealAmendment,
} from '#src/record/amend.ts'
import type { Entry } from '#src/record/chain.ts'
import { nextLink } from '#src/record/chain.ts'
import { amendmentName } from '#src/record/number.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { RecordRead } from './read-record.ts'

/** Random, and never used twice: without it nobody can test a guess at what was removed. */
export const newSalt = (): string => randomBytes(32).toString('hex')

/** Puts an entry on the crew's chain, as a part of one record; returns the id of its link. */
export async function keepLink(
  store: CrewStore,
  recordNumber: number,
  entry: Entry,
  nowMs: number,
): Promise<number> {
  return store.records.append(nextLink(await store.records.head(), entry), recordNumber, nowMs)
}

/** Amends a record as it stands, in the name of who asks, now; or says why that is no amendment. */
export async function keepAmendment(
  { row, current, links }: RecordRead,
  wanted: Pick<NewAmendment, 'why' | 'changes' | 'voids'>,
  { store, crew, person, nowMs }: Tools,
): Promise<Result<Amendment, readonly AmendProblem[]>> {
  const made = amend(current, {
    ...wanted,
    number: amendmentName(row.number, links.length),
    at: momentOf(crew.zone, nowMs),
    by: { name: person.name, id: person.id },
  })
  if (made.ok) {
    const sealed = sealAmendment(made.value, newSalt)
    await keepLink(store, row.number, { kind: 'amendment', sealed }, nowMs)
  }
  return made
}
