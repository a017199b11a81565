import { big, decimalText } from '#src/quantity/big.ts'
import type { AreaRate, Rate } from '#src/quantity/rate.ts'
import {
  asActive,
  asProduct,
  compareAreaRates,
  compareInTheMix,
  extreme,
  inUnitOf,
  lineToCheck,
  onTheGround,
} from '../amounts.ts'
import type { Active, LabelEntry } from '../entry.ts'
import { rateOf, rateParam, strengthOf } from '../figures.ts'
import type { RateLine } from '../rate-line.ts'
import type { Ceiling, Reason } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'
import { inScope } from './case.ts'

/** One rate held against one limit: above (1), at (0) or below (-1) it; null when it cannot be told. */
type Held = { readonly against: Rate; readonly order: -1 | 0 | 1 } | null

/**
 * A rate against a limit printed in one or several units. A strength of the mix is held against a strength as it
 * stands, and against an amount per area by way of the output. Where the asked unit is not among the printed ones,
 * the most generous of them counts, which is the highest for a maximum and the lowest for a minimum.
 */
function hold(rate: Rate, printed: readonly Rate[], asked: Case, generous: -1 | 1 = 1): Held {
  return holdInTheMix(rate, printed) ?? holdOnGround(rate, printed, asked, generous)
}

function holdInTheMix(rate: Rate, printed: readonly Rate[]): Held {
  for (const against of printed) {
    const order = compareInTheMix(rate, against)
    if (order !== null) return { against, order }
  }
  return null
}

function holdOnGround(rate: Rate, printed: readonly Rate[], asked: Case, generous: -1 | 1): Held {
  const { output } = asked.situation
  const ground = onTheGround(rate, output)
  if (ground === null) return null
  const others = printed.map((other) => onTheGround(other, output)).filter((other) => other !== null)
  for (const counted of [ground, ...otherCountings(ground, asked.entry)]) {
    const against = lineToCheck(counted, others, generous)
    const order = against === null ? null : compareAreaRates(counted, against)
    if (against !== null && order !== null) return { against, order }
  }
  return null
}

/** The same rate as product, ai or ae, where one active makes that plain. */
function otherCountings(rate: AreaRate, entry: LabelEntry): readonly AreaRate[] {
  const [active, ...more] = entry.actives
  if (active === undefined || more.length > 0) return []
  return strengthsOf(active).flatMap((strength) => {
    const other =
      rate.of === 'product'
        ? asActive(rate, strength)
        : strength.of === rate.of
          ? asProduct(rate, strength, entry.form === 'dry' ? 'oz wt' : 'fl oz')
          : null
    return other === null ? [] : [other]
  })
}

/** What one active is stated at: as ai, and as ae where the label gives it. */
export function strengthsOf({ strength, acid }: Active) {
  return acid === undefined ? [strengthOf(strength)] : [strengthOf(strength), strengthOf(acid)]
}

/** The most that one rate line allows, in each printed unit. */
export function highsOf(entry: LabelEntry, line: RateLine): readonly Rate[] {
  return line.rates.map(({ high }) => rateOf(entry, high))
}

/** The least that one rate line asks for; a single printed rate is its own least. */
export function lowsOf(entry: LabelEntry, line: RateLine): readonly Rate[] {
  return line.rates.map(({ low, high }) => rateOf(entry, low ?? high))
}

/** Above the highest rate of every line that is still possible. */
export function checkMaximum(asked: Case): readonly Reason[] {
  const { rate } = asked.situation
  if (rate === undefined) return []
  const held = asked.lines.map((line) => ({ line, found: hold(rate, highsOf(asked.entry, line), asked) }))
  if (held.some(({ found }) => found !== null && found.order <= 0)) return []
  const untold = held.find(({ found }) => found === null)
  if (untold) return [reason('question', 'cannot-compare', { rate: rateParam(rate) }, untold.line)]
  return held.slice(0, 1).map(({ line, found }) => {
    const maximum = rateParam(found?.against ?? rate)
    return reason('refusal', 'above-maximum', { maximum, rate: rateParam(rate) }, line)
  })
}

/** Above what the label allows at one time, whatever the rate line. */
export function checkPerApplication(asked: Case): readonly Reason[] {
  const { rate } = asked.situation
  if (rate === undefined) return []
  return inScope(asked.entry.limits.perApplication, asked).flatMap((limit) => {
    const found = hold(
      rate,
      limit.rates.map((text) => rateOf(asked.entry, text)),
      asked,
    )
    if (found === null) return [reason('question', 'cannot-compare', { rate: rateParam(rate) }, limit)]
    if (found.order <= 0) return []
    return [
      reason(
        'refusal',
        'above-application',
        { maximum: rateParam(found.against), rate: rateParam(rate) },
        limit,
      ),
    ]
  })
}

/**
 * Below the lowest rate of every line: weak control, and a refusal where label or state forbid it. Falling short by
 * no more than measuring does is no reason.
 */
export function checkMinimum(asked: Case): readonly Reason[] {
  const { rate, state } = asked.situation
  if (rate === undefined) return []
  const held = asked.lines.map((line) => ({ line, found: hold(rate, easedLows(asked, line), asked, -1) }))
  if (held.some(({ found }) => found === null || found.order >= 0)) return []
  const [lowest] = held
  if (lowest === undefined) return []
  const parameters = { minimum: rateParam(printedLow(asked, lowest.line, rate)), rate: rateParam(rate) }
  const { lessForbidden } = asked.entry.limits
  if (lessForbidden) return [reason('refusal', 'less-forbidden', parameters, lessForbidden)]
  if (state !== undefined && asked.settings.lessRefusedIn.includes(state)) {
    return [reason('refusal', 'less-refused-in-state', { ...parameters, state }, lowest.line)]
  }
  return [reason('heads-up', 'below-lowest', parameters, lowest.line)]
}

function easedLows({ entry, settings }: Case, line: RateLine): readonly Rate[] {
  const share = big(1).minus(settings.measuringShare)
  return lowsOf(entry, line).map((rate) => ({ ...rate, value: decimalText(big(rate.value).times(share)) }))
}

function printedLow(asked: Case, line: RateLine, rate: Rate): Rate {
  return hold(rate, lowsOf(asked.entry, line), asked, -1)?.against ?? rate
}

/** The limits of the amount of one rate line, apart from what is left of the year. */
export function ceilingsOf(asked: Case, line: RateLine): readonly Ceiling[] {
  const own: Ceiling = { why: 'rate-line', rates: highsOf(asked.entry, line), ...sourceOf(line) }
  const limits = inScope(asked.entry.limits.perApplication, { ...asked, lines: [line] })
  return [
    own,
    ...limits.map(
      (limit): Ceiling => ({
        why: 'per-application',
        rates: limit.rates.map((text) => rateOf(asked.entry, text)),
        ...sourceOf(limit),
      }),
    ),
  ]
}

function sourceOf({ line, page }: { readonly line?: string; readonly page?: string }) {
  return { ...(line === undefined ? {} : { line }), ...(page === undefined ? {} : { page }) }
}

/** The higher end of a line per area in a wanted unit, for what is left of the year. */
export function highestOnGround(asked: Case, like: AreaRate): AreaRate | null {
  const highs = asked.lines
    .flatMap((line) => highsOf(asked.entry, line))
    .map((rate) => onTheGround(rate, asked.situation.output))
    .flatMap((rate) => (rate === null || rate.of !== like.of ? [] : [inUnitOf(rate, like)]))
    .filter((rate) => rate !== null)
  return extreme(highs, 1)
}
