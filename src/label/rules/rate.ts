import type { CeilingCheck, Ceiling as Equivalents } from '#src/calculator/rate/ceilings.ts'
import { checkCeiling } from '#src/calculator/rate/ceilings.ts'
import { rateProblemStep } from '#src/calculator/rate/convert.ts'
import type { Need } from '#src/calculator/rate/figures.ts'
import { big } from '#src/quantity/big.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { formOf, isSameForm } from '#src/quantity/rate.ts'
import { figuresFor, inForm, ratioTo } from '../amounts.ts'
import type { LabelEntry } from '../entry.ts'
import { rateOf, rateParam } from '../figures.ts'
import type { ReasonId } from '../ids.ts'
import type { Printed } from '../printed.ts'
import { sourceOf } from '../printed.ts'
import type { RateLine } from '../rate-line.ts'
import type { Ceiling, Reason } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'
import { inScope } from './case.ts'

/** The most that one rate line allows, in each printed unit. */
export function highsOf(entry: LabelEntry, line: RateLine): Equivalents {
  return line.rates.map(({ high }) => rateOf(entry, high))
}

/** The least that one rate line asks for; a single printed rate is its own least. */
export function lowsOf(entry: LabelEntry, line: RateLine): Equivalents {
  return line.rates.map(({ low, high }) => rateOf(entry, low ?? high))
}

function check(rate: Rate, printed: Equivalents, { entry, situation }: Case): CeilingCheck {
  return checkCeiling(rate, printed, figuresFor(entry, situation.output))
}

/** A question for what is lacking to hold a rate against the label. */
export function cannotCompare(rate: Rate, need: Need | undefined, source: Printed | undefined): Reason {
  const missing = need === undefined ? {} : { need: { say: rateProblemStep({ kind: 'needs', need }).id } }
  return reason(
    'question',
    need === undefined ? 'cannot-compare' : 'figure-needed',
    { rate: rateParam(rate), ...missing },
    source,
  )
}

/** Above the highest rate of every line that is still possible. */
export function checkMaximum(asked: Case): readonly Reason[] {
  const { rate } = asked.situation
  if (rate === undefined) return []
  const found = asked.lines.map((line) =>
    againstCeiling('above-maximum', rate, check(rate, highsOf(asked.entry, line), asked), {
      source: line,
      asked,
    }),
  )
  return found.some(({ length }) => length === 0) ? [] : mildest(found)
}

/** With several lines still possible nothing is refused that one of them may allow. */
function mildest(found: readonly (readonly Reason[])[]): readonly Reason[] {
  return found.find((reasons) => reasons.every(({ outcome }) => outcome !== 'refusal')) ?? found[0] ?? []
}

/** Above what the label allows at one time, whatever the rate line. */
export function checkPerApplication(asked: Case): readonly Reason[] {
  const { rate } = asked.situation
  if (rate === undefined) return []
  return inScope(asked.entry.limits.perApplication, asked).flatMap((limit) => {
    const printed = limit.rates.map((text) => rateOf(asked.entry, text))
    return againstCeiling('above-application', rate, check(rate, printed, asked), { source: limit, asked })
  })
}

function againstCeiling(
  id: ReasonId,
  rate: Rate,
  found: CeilingCheck,
  { source, asked }: { readonly source: Printed; readonly asked: Case },
): readonly Reason[] {
  if (found.verdict === 'within') return []
  if (found.verdict === 'unknown') return [cannotCompare(rate, found.need, source)]
  const likeMaximum = inForm(rate, formOf(found.decides), figuresFor(asked.entry, asked.situation.output))
  const parameters = { maximum: rateParam(found.decides), rate: rateParam(likeMaximum ?? rate) }
  if (found.verdict === 'above') return [reason('refusal', id, parameters, source)]
  const other = found.lines.find(({ agreement, isAbove }) => agreement === 'disagrees' && isAbove)
  return [
    reason(
      'hold',
      'pair-disagrees',
      { ...parameters, other: rateParam(other?.printed ?? found.decides) },
      source,
    ),
  ]
}

/**
 * Below the lowest rate of every line: weak control, and a refusal where label or state forbid it. Falling short by
 * no more than measuring does is no reason.
 */
export function checkMinimum(asked: Case): readonly Reason[] {
  const { rate, state } = asked.situation
  if (rate === undefined || !asked.lines.every((line) => isBelow(rate, lowsOf(asked.entry, line), asked)))
    return []
  const [line] = asked.lines
  const printed = line === undefined ? [] : lowsOf(asked.entry, line)
  const minimum = printed.find((low) => isSameForm(rate, low)) ?? printed[0] ?? rate
  const parameters = { minimum: rateParam(minimum), rate: rateParam(rate) }
  const { lessForbidden } = asked.entry.limits
  if (lessForbidden) return [reason('refusal', 'less-forbidden', parameters, lessForbidden)]
  if (state !== undefined && asked.settings.lessRefusedIn.includes(state)) {
    return [reason('refusal', 'less-refused-in-state', { ...parameters, state }, line)]
  }
  return [reason('heads-up', 'below-lowest', parameters, line)]
}

/** Below the number printed in the unit that was asked for; without one, below all of them. */
function isBelow(rate: Rate, printed: Equivalents, { entry, situation, settings }: Case): boolean {
  const least = big(1).minus(settings.measuringShare)
  const same = printed.filter((low) => isSameForm(rate, low))
  const ratios = (same.length > 0 ? same : printed).map((low) =>
    ratioTo(rate, low, figuresFor(entry, situation.output)),
  )
  return ratios.length > 0 && ratios.every((ratio) => ratio?.lt(least) === true)
}

/** The limits of the amount of one rate line, apart from what is left of the year. */
export function ceilingsOf(asked: Case, line: RateLine): readonly Ceiling[] {
  const limits = inScope(asked.entry.limits.perApplication, { ...asked, lines: [line] })
  return [
    { why: 'rate-line', rates: highsOf(asked.entry, line), ...sourceOf(line) },
    ...limits.map(
      (limit): Ceiling => ({
        why: 'per-application',
        rates: limit.rates.map((text) => rateOf(asked.entry, text)),
        ...sourceOf(limit),
      }),
    ),
  ]
}
