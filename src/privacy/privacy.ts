import { dayIn } from '#src/desk/clock.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { ruleSetFor } from '#src/record/rule-set.ts'
import { readRecord } from '#src/records/read-record.ts'
import { type ChainHead, chainHeads } from '#src/store/chain-heads.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import { type Crew, getCrew } from '#src/store/crews.ts'
import { NEWEST_SCHEMA } from '#src/store/migrate.ts'
import type { Database } from '#src/store/open.ts'
import { listMentions, removeCustomer, removePerson } from '#src/store/personal.ts'
import { type Transaction, write } from '#src/store/transaction.ts'
import { loadStateRules } from '../../data/states/load.ts'

export type PrivacyWish =
  /** With `texts`, all that stands there is shown: what a person or a customer may ask for. */
  | { readonly kind: 'list'; readonly words: string; readonly texts?: boolean }
  | { readonly kind: 'person'; readonly key: string }
  | { readonly kind: 'customer'; readonly site: string }
  | { readonly kind: 'record'; readonly number: number }

/** What cannot be done, in a sentence for whoever runs the program. */
export class PrivacyError extends Error {}

/** Shows where somebody's words stand, or takes out who they are; what was done, in lines. @throws PrivacyError */
export function privacy(
  database: Database,
  wish: PrivacyWish,
  { crew: key, nowMs }: { readonly crew?: string; readonly nowMs: number },
): Promise<string[]> {
  return write(database, async (db) => {
    const crew = await findOne(db, key)
    const crewId = crew.id
    await database.words.lockCrew(db, crewId)
    if (wish.kind === 'list') {
      const found = await listMentions(db, { crewId, schema: NEWEST_SCHEMA, words: wish.words })
      return [
        `${found.length} rows of ${crew.name} hold “${wish.words}”`,
        ...found.flatMap(({ table, id, columns }) =>
          wish.texts
            ? columns.map(
                ({ name, text }) => `${table} ${id} ${name}: ${text.replaceAll(/\s*\n\s*/g, ' / ')}`,
              )
            : [`${table} ${id}: ${columns.map(({ name }) => name).join(', ')}`],
        ),
      ]
    }
    if (wish.kind === 'record') return [await clearRecord(db, crew, wish.number, nowMs)]
    const done =
      wish.kind === 'person'
        ? await removePerson(db, { crewId, key: wish.key, atMs: nowMs })
        : await removeCustomer(db, { crewId, site: wish.site, atMs: nowMs })
    if (done === null) throw new PrivacyError('Cannot find that in this crew: look with list --words first')
    return [
      `Taken out, and in ${done} earlier answers and notes. Records that must be kept still name what the law asks for; see docs/privacy.md.`,
    ]
  })
}

async function findOne(db: Transaction, key: string | undefined): Promise<Crew> {
  const crews = await db.selectFrom('crews').select(['id', 'key']).orderBy('id').execute()
  const found = key === undefined && crews.length === 1 ? crews[0] : crews.find((one) => one.key === key)
  const crew = found === undefined ? undefined : await getCrew(db, found.id)
  if (crew === undefined)
    throw new PrivacyError(
      crews.length === 0
        ? 'No crew has written anything here yet: nothing is kept about anybody'
        : `Cannot tell which crew: --crew is one of ${crews.map((one) => one.key).join(', ')}`,
    )
  return crew
}

/** The longest that any rule which may count for this crew asks for, or the crew's own setting where that is longer. */
function yearsKept({ state, settings }: Crew): number {
  const tables = loadStateRules()
  const { state: own, federal, everywhere } = ruleSetFor(state ?? undefined, tables)
  const asked = [own, federal, everywhere, tables.fallback].map(({ kept }) => kept?.years ?? 0)
  return Math.max(settings.keepYears, ...asked)
}

/** Personal values of a record that no longer has to be kept; the chain holds before and after. */
async function clearRecord(db: Transaction, crew: Crew, number: number, nowMs: number): Promise<string> {
  const store = crewStore(db, crew.id)
  const { records } = store
  const record = await records.find(number)
  if (record === undefined) throw new PrivacyError(`Cannot find record ${number} in this crew`)
  const years = yearsKept(crew)
  const from = record.appliedOn ?? dayIn(crew.zone, record.createdAtMs)
  const until = `${Number(from.slice(0, 4)) + years}${from.slice(4)}`
  if (dayIn(crew.zone, nowMs) < until)
    throw new PrivacyError(
      `Cannot clear record ${number}: it has to be kept for ${years} years, until ${until}`,
    )
  if (await hasOpenIncident(store, number))
    throw new PrivacyError(
      `Cannot clear record ${number}: its incident is still open. It stays until /emergency says that it is dealt with`,
    )
  const gone = await records.removePersonal(number)
  const broken = (await chainHeads(db)).flatMap(({ breaks }: ChainHead) => breaks)
  if (broken.length > 0) throw new PrivacyError('Cannot clear it: the chain of records does not hold')
  return `${gone} personal values of record ${number} taken out; the chain holds`
}

/** Was somebody hurt or ill, as far as the record or one of its amendments tells, and is that not dealt with yet? */
async function hasOpenIncident(store: CrewStore, number: number): Promise<boolean> {
  const open = new Set((await store.incidents.listOpen()).map(({ id }) => id))
  if (open.size === 0) return false
  const found = await readRecord(store, number)
  if (found?.kind !== 'read') return false
  const told = [found.original, found.current.record].map(({ unusual }) => recorded(unusual)?.incidentId)
  return told.some((id) => id !== undefined && open.has(id))
}
