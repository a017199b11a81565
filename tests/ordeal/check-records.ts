import type { Kysely } from 'kysely'
import { drawnFrom, leftIn } from '#src/logging/from-mix.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { RecordDraft } from '#src/record/record.ts'
import { readRecords, readSound } from '#src/records/read-record.ts'
import { type CrewStore, crewStore } from '#src/store/crew-store.ts'
import type { Database } from '#src/store/open.ts'
import type { RecordRow } from '#src/store/records.ts'
import type { Tables } from '#src/store/tables.ts'
import { readOnly } from '#src/store/transaction.ts'
import { type Deed, recordIn, shownText } from './people.ts'

/** What was promised about records and does not hold. */
export interface RecordFindings {
  readonly lost: string[]
  readonly doubled: string[]
  readonly wrong: string[]
}

/** More records than any trial writes. */
const ALL = { limit: 1_000_000 }

/** Holds the crew's records against what people were told, and every total against the records themselves. */
export function checkRecords(
  database: Database,
  crewId: number,
  deeds: readonly Deed[],
): Promise<RecordFindings> {
  return readOnly(database, async (db) => {
    const store = crewStore(db, crewId)
    const rows = await store.records.list({}, ALL)
    const found: RecordFindings = { lost: [], doubled: [], wrong: [] }
    await checkTold(found, store, rows, deeds)
    await checkDrafts(found, store, rows, await bodiesOf(db, crewId), deeds)
    await checkTotals(found, store, rows, await standingTreatments(db, crewId))
    await checkMixes(found, store, db, crewId)
    return found
  })
}

/** Every record and amendment that somebody was told of is there, and once. */
async function checkTold(
  { lost, doubled }: RecordFindings,
  store: CrewStore,
  rows: readonly RecordRow[],
  deeds: readonly Deed[],
): Promise<void> {
  const reasons = new Map<string, string[]>()
  const links = new Map<number, number>()
  for (const link of await store.records.pageLinks(0, ALL.limit))
    if (link.entry.kind === 'record') {
      const { number } = link.entry.sealed.open as { number: string }
      links.set(Number(number.slice(1)), (links.get(Number(number.slice(1))) ?? 0) + 1)
    }
  for (const found of await readRecords(store, rows))
    for (const { why } of found.kind === 'read' ? found.amendments : []) {
      const words = 'words' in why ? why.words : ''
      reasons.set(words, [...(reasons.get(words) ?? []), `R${found.row.number}`])
    }
  for (const [number, count] of links) if (count > 1) doubled.push(`record R${number}`)
  for (const [why, of] of reasons) if (of.length > 1) doubled.push(`amendment "${why}" of ${of}`)
  for (const deed of deeds) {
    const told = recordIn(shownText(deed.fired) ?? '')
    if (told === null) continue
    const { number, done } = told
    const row = rows.find((one) => one.number === number)
    if (row === undefined || !links.has(number)) lost.push(`record R${number}`)
    else if (done === 'void' && row.voidedAtMs === null) lost.push(`that R${number} is void`)
    if (deed.kind === 'amend' && done !== 'recorded' && !reasons.get(deed.why)?.includes(`R${number}`))
      lost.push(`amendment "${deed.why}" of R${number}`)
  }
}

/** One log makes one record; one request makes one log. */
async function checkDrafts(
  { lost, doubled }: RecordFindings,
  store: CrewStore,
  rows: readonly RecordRow[],
  drafts: readonly { readonly status: string; readonly body: RecordDraft }[],
  deeds: readonly Deed[],
): Promise<void> {
  const kept = drafts.filter(({ status }) => status === 'kept').length
  if (kept > rows.length) lost.push(`${kept - rows.length} records of ${kept} finished logs`)
  if (kept < rows.length) doubled.push(`${rows.length} records of ${kept} finished logs`)
  const records = (await readRecords(store, rows)).flatMap((found) =>
    found.kind === 'read' ? [found.original] : [],
  )
  for (const [notes, count] of counted(records.flatMap((record) => recorded(record.notes)?.words ?? [])))
    if (count > 1) doubled.push(`record of "${notes}"`)
  // Whoever got no answer began again under the same notes: of each request there is one log at most.
  for (const [notes, count] of counted(drafts.flatMap(({ body }) => recorded(body.notes)?.words ?? []))) {
    const begun = deeds.filter((deed) => deed.kind === 'log' && deed.begins && deed.notes === notes).length
    if (count > begun) doubled.push(`log of "${notes}"`)
  }
}

function counted(all: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>()
  for (const one of all) counts.set(one, (counts.get(one) ?? 0) + 1)
  return counts
}

/** History of the ground and stock are the sum of the records that stand, no more and no less. */
async function checkTotals(
  { wrong }: RecordFindings,
  store: CrewStore,
  rows: readonly RecordRow[],
  treatments: ReadonlySet<number>,
): Promise<void> {
  const used = new Map<string, string>()
  let expected = 0
  for (const row of rows) {
    const standing = (await readSound(store, row.number))?.current
    if (standing === undefined) {
      wrong.push(`the links of R${row.number} do not follow each other`)
      continue
    }
    const stands = standing.voidedBy === null
    if (stands !== (row.voidedAtMs === null)) wrong.push(`R${row.number} is void in one place only`)
    const products = stands ? (recorded(standing.record.products) ?? []) : []
    expected += products.length
    const own = row.treatments.filter((id) => treatments.has(id)).length
    if (own !== products.length)
      wrong.push(`R${row.number}: ${own} treatments of ${products.length} products`)
    for (const { name, amount } of products) addTo(used, name, recorded(amount))
    const drawn = stands ? recorded(standing.record.mixDrawn) : undefined
    if (JSON.stringify(drawn ?? null) !== JSON.stringify(row.drawn))
      wrong.push(`R${row.number} says ${JSON.stringify(drawn)} and counts as ${JSON.stringify(row.drawn)}`)
  }
  if (treatments.size !== expected) wrong.push(`${treatments.size} treatments of ${expected} products`)
  const taken = new Map<string, string>()
  for (const { kind, product, amount } of await store.stock.list())
    if (kind === 'used') addTo(taken, product, amount)
  for (const key of new Set([...used.keys(), ...taken.keys()]))
    if (used.get(key) !== taken.get(key))
      wrong.push(`stock used ${taken.get(key)} of what the records say is ${used.get(key)}: ${key}`)
}

type Amount = { readonly value: string; readonly unit: string }

function addTo(sums: Map<string, string>, product: string, amount: Amount | undefined): void {
  if (amount === undefined) return
  const key = `${product}, ${amount.unit}`
  sums.set(key, decimalText(big(sums.get(key) ?? '0').plus(amount.value)))
}

/** Nobody in the trial draws more than was mixed. */
async function checkMixes(
  { wrong }: RecordFindings,
  store: CrewStore,
  db: Kysely<Tables>,
  crewId: number,
): Promise<void> {
  const numbers = await db.selectFrom('mixes').select('number').where('crewId', '=', crewId).execute()
  for (const { number } of numbers) {
    const mix = await store.mixes.findByNumber(number)
    if (mix === undefined) continue
    const { made } = mix.body
    const drawn = await drawnFrom(mix, store)
    const left = big(made.value).minus(drawn === null ? 0 : amountIn(drawn, made.unit))
    const said = amountIn(await leftIn(mix, store), made.unit)
    if (left.lt(0) || !said.eq(left)) wrong.push(`of mix ${number} ${left} is left, and ${said} is said`)
    if (mix.closedAs === 'not sprayed' && drawn !== null) wrong.push(`mix ${number} was not sprayed, and was`)
  }
}

async function bodiesOf(db: Kysely<Tables>, crewId: number) {
  const drafts = await db
    .selectFrom('drafts')
    .select(['status', 'body'])
    .where('crewId', '=', crewId)
    .execute()
  return drafts.map(({ status, body }) => ({ status, body: RecordDraft.parse(JSON.parse(body)) }))
}

async function standingTreatments(db: Kysely<Tables>, crewId: number): Promise<ReadonlySet<number>> {
  const rows = await db
    .selectFrom('treatments')
    .select('id')
    .where('crewId', '=', crewId)
    .where('voidedAtMs', 'is', null)
    .execute()
  return new Set(rows.map(({ id }) => id))
}
