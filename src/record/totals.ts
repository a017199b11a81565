import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import { mayI } from '#src/label/allow.ts'
import { figuresFor, inUnitOf } from '#src/label/amounts.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { activesLeft } from '#src/label/past.ts'
import type { AllowSettings, PastTreatment, Situation } from '#src/label/situation.ts'
import { allowDefaults } from '#src/label/situation.ts'
import type { Verdict, YearLeft } from '#src/label/verdict.ts'
import { strictest } from '#src/label/verdict.ts'
import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import type { AreaRate, Rate } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import { groundsOf } from './ground.ts'
import { recorded } from './not-recorded.ts'
import type { Amount, ProductUsed } from './product.ts'
import type { RecordDraft } from './record.ts'

type Book = (name: string) => LabelEntry | undefined

/**
 * What really went on the treated ground, per area: the amount over the treated area, never over the whole lawn. Where
 * one of the two is not recorded, the rate that was meant stands in; null when not even that is per area.
 */
export function rateOnGround(product: ProductUsed, record: RecordDraft): AreaRate | null {
  const meant = recorded(product.rate)
  const amount = recorded(product.amount)
  const area = recorded(record.treatedArea)
  const like = meant?.kind === 'area' ? meant : undefined
  if (amount === undefined || area === undefined || compareNumbers(area.value, 0) <= 0) return like ?? null
  const per = like?.per ?? ({ value: '1', unit: '1000 ft2' } as const)
  const value = big(amount.value).times(per.value).div(amountIn(area, per.unit))
  const real = areaRate(value, amount.unit, per)
  if (like === undefined || like.of !== 'product') return real
  const same = inUnitOf(real, like)
  if (same === null) return real
  return isWithinRounding(same, like, amount) ? like : same
}

/**
 * An amount that somebody typed is right to half of its last digit. A rate that differs by less than that is the rate
 * that was meant: without this every rounded amount would look like too much.
 */
function isWithinRounding(real: AreaRate, meant: AreaRate, amount: Amount): boolean {
  const digits = amount.value.split('.')[1]?.length ?? 0
  const share = big(10).pow(-digits).div(2).div(big(amount.value))
  return compareNumbers(big(real.value).div(meant.value).minus(1).abs(), share) <= 0
}

/** A kept record as a label's limits count it: one treatment for each product that the book knows. */
export function pastOf(
  record: RecordDraft,
  book: Book,
  sameGround: PastTreatment['sameGround'],
): readonly PastTreatment[] {
  const on = recorded(record.date)
  if (on === undefined) return []
  const area = recorded(record.treatedArea)
  return (recorded(record.products) ?? []).map((product) => {
    const entry = book(product.name)
    const rate = rateOnGround(product, record)
    return {
      on,
      entry: product.name,
      ...(rate === null || rate.of !== 'product' ? {} : { product: rate }),
      actives: activesOf(product, entry, rate),
      areaFt2: area === undefined ? '0' : decimalText(amountIn(area, 'ft2')),
      sameGround,
    }
  })
}

/** Actives by name even where no amount can be told: such a treatment counts, and is a hold. */
function activesOf(
  product: ProductUsed,
  entry: LabelEntry | undefined,
  rate: AreaRate | null,
): PastTreatment['actives'] {
  if (entry !== undefined && rate !== null && rate.of === 'product') return activesLeft(entry, rate)
  const names = entry?.actives ?? recorded(product.actives) ?? []
  return names.map(({ name }) => ({ name, amounts: [] }))
}

/** The treatments of one area as the limits count them for this draft. @param earlier the newest first, none voided */
export function treatmentsFor(
  draft: RecordDraft,
  earlier: readonly RecordDraft[],
  book: Book,
): readonly PastTreatment[] {
  const grounds = groundsOf(draft, earlier)
  return earlier.flatMap((record, back) => pastOf(record, book, grounds[back] ?? 'unknown'))
}

/** One yearly limit with this job added, in the basis of the label: product, ai or ae. */
export interface YearTotal extends YearLeft {
  /** What this job adds; null when a figure is lacking for that. */
  readonly adds: AreaRate | null
  /** Used and added; null like `adds`. */
  readonly total: AreaRate | null
}

export interface AddedUp {
  readonly product: string
  readonly verdict: Verdict
  readonly totals: readonly YearTotal[]
  /** The label's outcome, or a hold because an estimated area brings the total too near to a limit. */
  readonly outcome: Verdict['outcome']
  readonly notes: readonly Text[]
}

/**
 * How near to a limit a total may come when the treated area is only estimated: a guess of an area is easily off by a
 * fifth (common practice, no source). Nearer is a hold until somebody has measured.
 */
export const ESTIMATE_SHARE = '0.8'

/**
 * What this draft adds to the totals of its ground, by every yearly limit of each product, and what the label says to
 * it. The label's own rules do the counting; here only the job itself is put in.
 * @param situation everything beside rate and past treatments
 */
export function addUp(
  draft: RecordDraft,
  options: {
    readonly earlier: readonly RecordDraft[]
    readonly book: Book
    readonly situation: Omit<Situation, 'rate' | 'treatments'>
    readonly settings?: AllowSettings
  },
): readonly AddedUp[] {
  const treatments = treatmentsFor(draft, options.earlier, options.book)
  return (recorded(draft.products) ?? []).flatMap((product): AddedUp[] => {
    const entry = options.book(product.name)
    if (entry === undefined) return []
    const onGround = rateOnGround(product, draft)
    const rate: Rate | undefined = onGround ?? recorded(product.rate)
    const situation = { ...options.situation, ...(rate === undefined ? {} : { rate }), treatments }
    const verdict = mayI(entry, situation, options.settings ?? allowDefaults)
    const totals = verdict.leftThisYear.map((left) => withJob(left, rate, { entry, situation }))
    const near = recorded(draft.areaBasis) === 'estimate' ? totals.filter(isNearLimit) : []
    const notes = near.map(({ total, limit }) =>
      say('record.estimate-near', { total: sayRate(total ?? limit), limit: sayRate(limit) }),
    )
    const outcome = near.length === 0 ? verdict.outcome : strictest([...verdict.reasons, HOLD])
    return [{ product: product.name, verdict, totals, outcome, notes }]
  })
}

const HOLD = { id: 'record.estimate-near', outcome: 'hold', with: {} } as const

function withJob(
  left: YearLeft,
  rate: Rate | undefined,
  { entry, situation }: { readonly entry: LabelEntry; readonly situation: Situation },
): YearTotal {
  const active = entry.actives.find(({ name }) => name === left.active)
  const figures = figuresFor(entry, situation.output, active)
  const adds = rate === undefined ? null : inUnitOf(rate, left.limit, figures)
  const { unit, per, of } = left.limit
  const total = adds === null ? null : areaRate(big(left.used.value).plus(adds.value), unit, per, of)
  return { ...left, adds, total }
}

function isNearLimit({ total, limit }: YearTotal): boolean {
  return total !== null && compareNumbers(total.value, big(limit.value).times(ESTIMATE_SHARE)) > 0
}
