import type { NoMix } from '#src/calculator/mix/outcome.ts'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import type { Tool } from '#src/calculator/mix/request.ts'
import { sayStep } from '#src/conversation/steps.ts'
import type { Text } from '#src/conversation/text.ts'
import { mayI } from '#src/label/allow.ts'
import { figuresFor } from '#src/label/amounts.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { rateOf } from '#src/label/figures.ts'
import type { RateLine } from '#src/label/rate-line.ts'
import type { AllowSettings, Situation } from '#src/label/situation.ts'
import type { Reason } from '#src/label/verdict.ts'
import { sayReason } from '#src/label/words.ts'
import { adjuvantsOfLabel } from '#src/mixing/adjuvants.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Output, Rate } from '#src/quantity/rate.ts'
import type { CardFill } from './fills.ts'

/** What every line of the card is worked out with. */
export interface CardBasis {
  readonly fills: readonly CardFill[]
  readonly output: Output
  /** Of these people on this day; which ground it will be is not known yet. */
  readonly situation: Situation
  readonly settings: AllowSettings
}

/** What goes into one filling; `null` where the crew's tools cannot measure it. */
export interface CardCell {
  readonly low: Quantity | null
  readonly high: Quantity | null
  readonly adjuvant: Quantity | null
}

export type MeasuredLine =
  | {
      readonly ok: true
      readonly low: Rate
      readonly high: Rate
      readonly cells: readonly CardCell[]
      readonly notes: readonly Text[]
    }
  | { readonly ok: false; readonly because: Text }

/** Ground and its grass are looked at when it is mixed, and the line itself says for which turf it is. */
const ASKED_LATER = new Set(['label.turf-unknown', 'label.dormant-unknown'])
/** Told beside the line. */
const NOTED = new Set(['label.non-selective', 'label.adjuvant-none', 'label.adjuvant-needed'])

/** One rate line of a label at both ends of its rate, measured with these tools; or why it is not on the card. */
export function measureLine(
  entry: LabelEntry,
  line: RateLine,
  tools: readonly Tool[],
  basis: CardBasis,
): MeasuredLine {
  const [printed] = line.rates
  if (printed === undefined) throw new RangeError('A rate line has no rate')
  const high = rateOf(entry, printed.high)
  const low = printed.low === undefined ? high : rateOf(entry, printed.low)
  const adjuvants = adjuvantsOfLabel(entry, 'needed')
  const judge = (rate: Rate) =>
    mayI(
      entry,
      {
        ...basis.situation,
        line: line.id,
        rate,
        output: basis.output,
        ...(adjuvants.length > 0 ? { adjuvant: 'with' as const } : {}),
      },
      basis.settings,
    )
  const verdicts = [judge(low), judge(high)]
  const blocking = verdicts.flatMap(({ reasons }) => reasons).find(isBlocking)
  if (blocking !== undefined) return { ok: false, because: sayReason(blocking) }
  const ceilings = verdicts[1]?.ceilings.map(({ rates }) => rates) ?? []

  const problems: NoMix[] = []
  const measure = (rate: Rate, { volume, mark }: CardFill) => {
    const planned = planFill({
      rate,
      figures: { ...figuresFor(entry, basis.output) },
      ...(ceilings.length === 0 ? {} : { maxima: ceilings }),
      tools,
      adjuvants,
      fill: volume,
      capacity: volume,
      ...(mark === undefined ? {} : { mark }),
    })
    if (planned.outcome !== 'answer') problems.push(planned)
    return planned.outcome === 'answer' ? planned.mix : null
  }
  const cells = basis.fills.map((fill): CardCell => {
    const [least, most] = [measure(low, fill), measure(high, fill)]
    return {
      low: least?.concentrate?.measured ?? null,
      high: most?.concentrate?.measured ?? null,
      adjuvant: (most ?? least)?.adjuvants[0]?.measured ?? null,
    }
  })
  const [problem] = problems
  if (problem !== undefined && cells.every((cell) => cell.low === null && cell.high === null))
    return { ok: false, because: sayStep(problem.reason) }
  const notes = (verdicts[1]?.reasons ?? []).filter(({ id }) => NOTED.has(id)).map(sayReason)
  return { ok: true, low, high, cells, notes }
}

function isBlocking({ id, outcome }: Reason): boolean {
  return outcome !== 'answer' && outcome !== 'heads-up' && !ASKED_LATER.has(id)
}
