import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import { momentOf } from '#src/desk/moments.ts'
import { mayI } from '#src/label/allow.ts'
import { figuresFor, inUnitOf } from '#src/label/amounts.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { Verdict } from '#src/label/verdict.ts'
import { allowSettingsOf, seasonOf, situationBesideHistory } from '#src/mixing/situation.ts'
import { big } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { sayRate } from '#src/quantity/said.ts'
import { holds } from '#src/record/conditions.ts'
import { keepUntil } from '#src/record/keep.ts'
import { type LabelCheck, labelCheckOf } from '#src/record/label-check.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { type RecordContext, recordDefaults } from '#src/record/rules/rule.ts'
import { type RecordStatus, statusOf } from '#src/record/status.ts'
import { ESTIMATE_SHARE, rateOnGround } from '#src/record/totals.ts'
import type { Moment } from '#src/record/values.ts'
import { pastOnGround } from '#src/records/ground-past.ts'
import { entriesOf, type LogEnv } from './env.ts'
import { drawnFrom } from './from-mix.ts'

export interface Judged {
  readonly status: RecordStatus
  /** The draft with what follows from it: what the label said, and how long it is kept. */
  readonly draft: RecordDraft
  /** Near a yearly limit with an area that is only a guess: somebody has to measure first. */
  readonly estimates: readonly Text[]
}

/** A record that is judged anew after an amendment: nothing of its own counts against it. */
interface Except {
  readonly treatments: readonly number[]
  readonly writtenAt: Moment
  readonly recordNumber: number
}

/** Holds a log against its labels, with the history of its ground, and against the rules of its state. */
export async function judge(env: LogEnv, except?: Except): Promise<Judged> {
  const verdicts = await verdictsOf(env, except)
  const context = await contextOf(env, verdicts, except)
  const draft = { ...env.draft, ...(await followsFrom(env, verdicts)) }
  return { status: statusOf(draft, context), draft, estimates: estimatesOf(env, verdicts) }
}

async function followsFrom(env: LogEnv, verdicts: ReadonlyMap<string, Verdict>): Promise<RecordDraft> {
  const { draft, tools, rules } = env
  const day = recorded(draft.date)
  const checks: LabelCheck = []
  for (const [product, verdict] of verdicts) {
    const isLifted = await wasLifted(product, env)
    checks.push({ ...labelCheckOf(product, verdict), ...(isLifted ? { lifted: true } : {}) })
  }
  const restricted = holds('restricted', { draft, entries: entriesOf(env) })
  return {
    ...(checks.length === 0 ? {} : { labelCheck: checks }),
    ...(day === undefined
      ? {}
      : { keepUntil: keepUntil(day, rules, { restricted, crewYears: tools.crew.settings.keepYears }) }),
  }
}

/** A licensed lead's word, given beforehand for this product, area and day. */
async function wasLifted(product: string, { draft, tools }: LogEnv): Promise<boolean> {
  const entryId = (recorded(draft.products) ?? []).find(({ name }) => name === product)?.entryId
  const day = recorded(draft.date)
  if (entryId === undefined || draft.areaId === undefined || day === undefined) return false
  return (await tools.store.holdLifts.find(entryId, draft.areaId, day)) !== undefined
}

async function verdictsOf(env: LogEnv, except: Except | undefined): Promise<Map<string, Verdict>> {
  const { draft, tools, area, site } = env
  const { store, crew } = tools
  const products = recorded(draft.products) ?? []
  const day = recorded(draft.date) ?? tools.today
  const kept = except && { number: except.recordNumber, treatments: except.treatments }
  const treatments =
    area === null
      ? []
      : await pastOnGround(store, { area, draft, on: day, ...(kept === undefined ? {} : { kept }) })
  const verdicts = new Map<string, Verdict>()
  for (const product of products) {
    const booked = env.book.find(({ entry }) => entry.name === product.name)
    const entry = product.entryId === undefined ? undefined : await store.labels.get(product.entryId)
    if (booked === undefined || entry?.live == null) continue
    const [target] = recorded(draft.targets) ?? []
    const named = { product: { ...entry, live: entry.live }, sprayer: null, site, area, person: tools.person }
    const given = {
      ...(target === undefined ? {} : { weed: target.taxon ?? target.words }),
      ...(product.line === undefined ? {} : { line: product.line }),
      season: seasonOf(day),
    }
    const output = recorded(draft.output)
    const rate = rateOnGround(product, draft) ?? recorded(product.rate)
    const added = recorded(draft.adjuvants)
    const situation = {
      ...(await situationBesideHistory(given, named, { ...tools, today: day })),
      treatments,
      lastConfirmedOn: booked.lastConfirmedOn,
      ...(rate === undefined ? {} : { rate }),
      ...(output === undefined ? {} : { output }),
      ...(added === undefined
        ? {}
        : { adjuvant: added.length > 0 ? ('with' as const) : ('without' as const) }),
      partners: products.filter(({ name }) => name !== product.name).map(({ name }) => name),
      conditions: conditionsOf(draft),
    }
    verdicts.set(product.name, mayI(booked.entry, situation, allowSettingsOf(crew)))
  }
  return verdicts
}

/** The hottest and the windiest reading, and the nearest rain: what a limit is held against. */
function conditionsOf(draft: RecordDraft) {
  const most = <Q extends { readonly value: string; readonly unit: string }>(
    values: readonly Q[],
  ): Q | undefined =>
    values.reduce<Q | undefined>(
      (top, one) =>
        top === undefined || big(amountIn(one as never, top.unit as never)).gt(top.value) ? one : top,
      undefined,
    )
  const temperature = most((recorded(draft.temperature) ?? []).map(({ value }) => value))
  const wind = most((recorded(draft.windSpeed) ?? []).map(({ value }) => value))
  const rain = (recorded(draft.rain) ?? []).flatMap(({ value }) => value.hoursUntil ?? [])
  return {
    ...(temperature === undefined ? {} : { temperature }),
    ...(wind === undefined ? {} : { wind }),
    ...(rain.length === 0 ? {} : { rainInHours: Math.min(...rain.map(Number)) }),
  }
}

async function contextOf(
  env: LogEnv,
  verdicts: ReadonlyMap<string, Verdict>,
  except: Except | undefined,
): Promise<RecordContext> {
  const { tools, mix, areas, rules, book } = env
  const { crew, nowMs, store } = tools
  const now = momentOf(crew.zone, nowMs)
  const others =
    mix === null
      ? []
      : (await store.records.ofMix(mix.id)).filter(({ number }) => number !== except?.recordNumber)
  const drawn = mix === null ? null : await drawnFrom(mix, store, except?.recordNumber)
  const property = areas.reduce((sum, { squareFeet }) => sum.plus(squareFeet), big(0))
  const spots = await spotsElsewhere(env, except?.recordNumber)
  return {
    now,
    writtenAt: except?.writtenAt ?? now,
    rules,
    settings: { ...recordDefaults, keepYears: crew.settings.keepYears },
    book,
    verdicts,
    ...(property.isZero() ? {} : { propertyFt2: property.toFixed() }),
    ...(spots === null ? {} : { spotFt2Elsewhere: spots }),
    ...(drawn === null ? {} : { drawnElsewhere: drawn }),
    ...(mix === null ? {} : { sitesOfMix: others.length + 1 }),
  }
}

/** Other records of this day are few: a crew makes some dozens at most. */
const MOST_A_DAY = 200

/** Ground treated in spots with the same products elsewhere on that day, in square feet. */
async function spotsElsewhere({ draft, tools }: LogEnv, except: number | undefined): Promise<string | null> {
  const day = recorded(draft.date)
  if (day === undefined || draft.coverage !== 'spots') return null
  const [product] = recorded(draft.products) ?? []
  if (product === undefined) return null
  const found = await tools.store.records.listNewest(
    { from: day, to: day, product: product.name },
    MOST_A_DAY,
  )
  const ids = found
    .filter(({ number, voidedAtMs }) => number !== except && voidedAtMs === null)
    .flatMap(({ treatments, areaId }) => treatments.map((id) => ({ id, areaId })))
  let total = big(0)
  for (const areaId of new Set(ids.map((one) => one.areaId))) {
    if (areaId === null) continue
    const here = await tools.store.treatments.list(areaId, day)
    const own = new Set(ids.map(({ id }) => id))
    for (const one of here) if (own.has(one.id)) total = total.plus(one.details.treatedFt2)
  }
  return total.isZero() ? null : total.toFixed()
}

function estimatesOf({ draft, book }: LogEnv, verdicts: ReadonlyMap<string, Verdict>): Text[] {
  if (draft.areaBasis !== 'estimate') return []
  return [...verdicts].flatMap(([name, { leftThisYear }]) => {
    const product = (recorded(draft.products) ?? []).find((one) => one.name === name)
    const entry = book.find((one) => one.entry.name === name)?.entry
    const rate = product === undefined ? null : rateOnGround(product, draft)
    if (entry === undefined || rate === null) return []
    return leftThisYear.flatMap(({ limit, used, active }) => {
      const adds = inUnitOf(rate, limit, figuresFor(entry, recorded(draft.output), activeOf(entry, active)))
      if (adds === null) return []
      const total = big(used.value).plus(adds.value)
      return total.gt(big(limit.value).times(ESTIMATE_SHARE))
        ? [
            say('record.estimate-near', {
              total: sayRate({ ...limit, value: total.toFixed() }),
              limit: sayRate(limit),
            }),
          ]
        : []
    })
  })
}

const activeOf = ({ actives }: LabelEntry, name: string | undefined) =>
  actives.find((one) => one.name === name)
