import type { LabelEntry } from '#src/label/entry.ts'
import type { Missing } from '#src/record/complete.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { ProductUsed } from '#src/record/product.ts'
import { ruleSetFor } from '#src/record/rule-set.ts'
import type { Finding, RecordContext } from '#src/record/rules/rule.ts'
import { recordDefaults } from '#src/record/rules/rule.ts'
import { statusOf } from '#src/record/status.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { loadStateRules } from '../../data/states/load.ts'
import type { RecordRead } from './read-record.ts'

/** What keeps a record from being complete. */
export interface Lacks {
  readonly missing: readonly Missing[]
  /** What in it contradicts itself. */
  readonly problems: readonly Finding[]
}

const NOTHING: Lacks = { missing: [], problems: [] }

let loaded: ReturnType<typeof loadStateRules> | undefined
const tables = () => {
  loaded ??= loadStateRules()
  return loaded
}

/** Holds a record that is not complete against the rule table that was asked when it was written. */
export async function lacksOf(store: CrewStore, found: RecordRead): Promise<Lacks> {
  const [lacks = NOTHING] = await lacksOfAll(store, [found])
  return lacks
}

/** The same for many records, in their order, with as few questions to the store as for one. */
export async function lacksOfAll(store: CrewStore, all: readonly RecordRead[]): Promise<readonly Lacks[]> {
  const incomplete = all.filter(({ row }) => !row.complete)
  const entries = await entriesOfAll(
    store,
    incomplete.map(({ current }) => current.record),
  )
  const lacks = new Map(incomplete.map((one, at) => [one, heldAgainst(one, entries[at] ?? [])]))
  return all.map((one) => lacks.get(one) ?? NOTHING)
}

function heldAgainst({ current, original }: RecordRead, entries: readonly LabelEntry[]): Lacks {
  const { record } = current
  const context: RecordContext = {
    now: original.writtenAt,
    writtenAt: original.writtenAt,
    rules: ruleSetFor(record.rules.state, tables()),
    settings: recordDefaults,
    book: entries.map((entry) => ({ entry, lastConfirmedOn: null })),
    verdicts: new Map(),
  }
  const { missing, findings } = statusOf(record, context)
  return {
    missing,
    problems: findings.filter(({ weight, about }) => weight === 'problem' && about === 'complete'),
  }
}

/** The label entries by which a record was written, as far as the book still has them. */
export async function entriesOf(
  store: CrewStore,
  record: RecordRead['original'],
): Promise<readonly LabelEntry[]> {
  const [entries = []] = await entriesOfAll(store, [record])
  return entries
}

/** The same for many records, in their order: two questions to the store at most, however many they are. */
export async function entriesOfAll(
  store: CrewStore,
  records: readonly RecordRead['original'][],
): Promise<readonly (readonly LabelEntry[])[]> {
  const used = records.map(({ products }) => recorded(products) ?? [])
  const ids = used.flat().flatMap(({ revisionId }) => revisionId ?? [])
  const named = await store.labels.bodiesOf([...new Set(ids)])
  const bodyOf = ({ revisionId }: ProductUsed) =>
    revisionId === undefined ? undefined : named.get(revisionId)
  const others = used.flat().filter((product) => bodyOf(product) === undefined)
  const live = await store.labels.liveBodiesOf([...new Set(others.map(({ name }) => name))])
  return used.map((products) =>
    products.flatMap((product) => bodyOf(product) ?? live.get(product.name) ?? []),
  )
}
