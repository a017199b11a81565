import type { Tools } from '#src/desk/command.ts'
import { applicationsLeft, type IntervalOver, intervalOver } from '#src/efficacy/left.ts'
import { mayI } from '#src/label/allow.ts'
import type { Day } from '#src/label/day.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { PastTreatment, Situation } from '#src/label/situation.ts'
import { type Reason, strictest, type Verdict } from '#src/label/verdict.ts'
import { allowSettingsOf, situationOf, withRate } from '#src/mixing/situation.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { pastOfRepeat } from '#src/records/ground-past.ts'
import type { Application, AppliedProduct } from './application.ts'

/** What the label says to one product of the application, once more on the same ground. */
export interface ProductSays {
  readonly product: AppliedProduct
  /** The label as the book has it now; null when the product is no longer in force there. */
  readonly entry: LabelEntry | null
  readonly verdict: Verdict
  /** How many more applications the label allows on this ground within the year; null when it counts none. */
  readonly applicationsLeft: number | null
  /** The label's days between two applications, and the first day after them; null when it asks for none. */
  readonly interval: IntervalOver | null
}

export interface LabelSays {
  readonly on: Day
  readonly verdict: Verdict
  readonly products: readonly ProductSays[]
}

/**
 * What the label says to the same again. When nothing but the interval stands in the way, the day on which it is over
 * is asked about instead: that day is the answer.
 */
export async function labelSays(application: Application, tools: Tools): Promise<LabelSays> {
  const now = await saysOn(application, tools.today, tools)
  const { outcome, reasons, earliestNext } = now.verdict
  const isInterval = reasons.every((one) => one.outcome !== 'refusal' || one.id === 'label.interval')
  if (outcome !== 'refusal' || !isInterval || earliestNext === null) return now
  const then = await saysOn(application, earliestNext, tools)
  return then.verdict.outcome === 'refusal' ? now : then
}

async function saysOn(application: Application, on: Day, tools: Tools): Promise<LabelSays> {
  const products = await Promise.all(
    application.products.map((product) => productSays({ application, product, on }, tools)),
  )
  return { on, verdict: together(products.map(({ verdict }) => verdict)), products }
}

interface Asked {
  readonly application: Application
  readonly product: AppliedProduct
  readonly on: Day
  /** Another rate than the one that was used. */
  readonly rate?: Rate
}

export async function productSays(asked: Asked, tools: Tools): Promise<ProductSays> {
  const { product, application } = asked
  const kept = await tools.store.labels.findByName(product.used.name)
  if (kept?.live == null) {
    const verdict = nothingKnown(product.used.name)
    return { product, entry: null, verdict, applicationsLeft: null, interval: null }
  }
  const entry = kept.live.body
  const base = await situationOf(
    givenOf(application, product, entry),
    {
      product: { ...kept, live: kept.live },
      sprayer: null,
      site: application.site,
      area: application.area,
      person: tools.person,
    },
    { ...tools, today: asked.on },
  )
  const treatments = await onOwnGround(application, asked.on, tools)
  const rate = asked.rate ?? recorded(product.used.rate)
  const situation: Situation = { ...base, treatments }
  const full = rate === undefined ? situation : withRate(situation, rate, recorded(application.record.output))
  const settings = allowSettingsOf(tools.crew)
  const verdict = mayI(entry, full, settings)
  return {
    product,
    entry,
    verdict,
    applicationsLeft: applicationsLeft(entry, full, { verdict, settings }),
    interval: intervalOver(entry, full, { verdict, settings }),
  }
}

/** A rate line for first treatments only is no line for a second one: the label's others are asked. */
function givenOf({ weeds }: Application, { used }: AppliedProduct, entry: LabelEntry) {
  const line = entry.rateLines.find(({ id, treatment }) => id === used.line && treatment !== 'first')
  const [weed] = weeds
  return {
    treatment: 'repeat',
    spots: 'same',
    ...(line === undefined ? {} : { line: line.id }),
    ...(weed === undefined ? {} : { weed: weed.taxon ?? weed.words }),
  } as const
}

/** The treatments of the area; those of this record's own ground as such, others as people said when they logged. */
async function onOwnGround(application: Application, again: Day, { store }: Tools): Promise<PastTreatment[]> {
  const { area, record, row, treatedOn } = application
  return area === null ? [] : pastOfRepeat(store, { area, draft: record, on: treatedOn, kept: row }, again)
}

/** Several products of one tank: every reason, and the latest of the days. */
function together(verdicts: readonly Verdict[]): Verdict {
  const [first] = verdicts
  if (first === undefined) return nothingKnown('')
  if (verdicts.length === 1) return first
  const reasons = verdicts.flatMap((one) => one.reasons)
  const days = verdicts.map(({ earliestNext }) => earliestNext)
  return {
    outcome: strictest(reasons),
    reasons,
    rateLines: first.rateLines,
    ceilings: verdicts.flatMap(({ ceilings }) => ceilings),
    leftThisYear: verdicts.flatMap(({ leftThisYear }) => leftThisYear),
    earliestNext: days.includes(null) ? null : (days.sort().at(-1) ?? null),
  }
}

/** Without a label in force nobody can tell what it allows. */
function nothingKnown(product: string): Verdict {
  const reason: Reason = { id: 'visits.no-label', outcome: 'hold', with: { product } }
  return {
    outcome: 'hold',
    reasons: [reason],
    rateLines: [],
    ceilings: [],
    leftThisYear: [],
    earliestNext: null,
  }
}
