import type { LabelEntry } from '#src/label/entry.ts'
import type { Missing } from '#src/record/complete.ts'
import { recorded } from '#src/record/not-recorded.ts'
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
export async function lacksOf(store: CrewStore, { row, current, original }: RecordRead): Promise<Lacks> {
  if (row.complete) return NOTHING
  const { record } = current
  const context: RecordContext = {
    now: original.writtenAt,
    writtenAt: original.writtenAt,
    rules: ruleSetFor(record.rules.state, tables()),
    settings: recordDefaults,
    book: (await entriesOf(store, record)).map((entry) => ({ entry, lastConfirmedOn: null })),
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
  const used = recorded(record.products) ?? []
  const found = await Promise.all(
    used.map(async ({ name, revisionId }) => {
      const revision = revisionId === undefined ? undefined : await store.labels.getRevision(revisionId)
      return revision?.body ?? (await store.labels.findByName(name))?.live?.body
    }),
  )
  return found.filter((entry) => entry !== undefined)
}
