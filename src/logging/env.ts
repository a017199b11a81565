import type { Tools } from '#src/desk/command.ts'
import { stateOf } from '#src/mixing/situation.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { RuleSet } from '#src/record/rule-set.ts'
import type { BookEntry } from '#src/record/rules/rule.ts'
import type { KeptMix } from '#src/store/mixes.ts'
import type { Area, Site } from '#src/store/sites.ts'
import { rulesOf } from './rule-tables.ts'

/** A log on its way, with everything that is known of what it speaks of. */
export interface LogEnv {
  readonly tools: Tools
  readonly draft: RecordDraft
  readonly mix: KeptMix | null
  readonly site: Site | null
  readonly areas: readonly Area[]
  readonly area: Area | null
  readonly rules: RuleSet
  /** Two letters, where the site's address or the crew's settings tell them. */
  readonly state: string | null
  /** The label entries of its products, in the revision that was used. */
  readonly book: readonly BookEntry[]
}

/** Looks up what a draft speaks of. */
export async function envOf(draft: RecordDraft, mixId: number | null, tools: Tools): Promise<LogEnv> {
  const { store, crew } = tools
  const site = draft.siteId === undefined ? null : ((await store.sites.get(draft.siteId)) ?? null)
  const areas = site === null ? [] : await store.sites.listAreas(site.id)
  const state = stateOf(site, crew)
  return {
    tools,
    draft,
    mix: mixId === null ? null : ((await store.mixes.get(mixId)) ?? null),
    site,
    areas,
    area: areas.find(({ id }) => id === draft.areaId) ?? null,
    rules: rulesOf(state),
    state,
    book: await bookOf(draft, tools),
  }
}

async function bookOf(draft: RecordDraft, { store }: Tools): Promise<BookEntry[]> {
  const found: BookEntry[] = []
  for (const { entryId, revisionId } of recorded(draft.products) ?? []) {
    if (entryId === undefined) continue
    const entry = await store.labels.get(entryId)
    const revision = revisionId === undefined ? entry?.live : await store.labels.getRevision(revisionId)
    if (entry === undefined || revision == null) continue
    found.push({ entry: revision.body, lastConfirmedOn: entry.confirmedOn })
  }
  return found
}

export const entriesOf = ({ book }: LogEnv) => book.map(({ entry }) => entry)
