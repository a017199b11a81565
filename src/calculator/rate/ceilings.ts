import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { isSameForm } from '#src/quantity/rate.ts'
import { convertRate } from './convert.ts'
import type { Figures, Need } from './figures.ts'

/** One maximum, in each unit in which it is printed. Such numbers often differ by the rounding of a last digit. */
export type Ceiling = readonly Rate[]

/** How a rate stands against one printed number. */
export interface CeilingLine {
  readonly printed: Rate
  /** The rate in the printed unit, as far as it can be told. */
  readonly rate: Rate | undefined
  readonly isAbove: boolean
  /** Against the number that decides: the same but for rounding, or really another one. */
  readonly agreement: 'decides' | 'rounding' | 'disagrees'
}

/** `unknown` names what is lacking to compare at all; `disagrees` means that the printed numbers contradict each other. */
export type CeilingCheck =
  | {
      readonly verdict: 'within' | 'above' | 'disagrees'
      readonly decides: Rate
      readonly lines: readonly CeilingLine[]
    }
  | { readonly verdict: 'unknown'; readonly need: Need | undefined }

/** A rounding hides at most half of the last digit; with one digit that can be much, so it is held to this share. */
const MOST_ROUNDING_SHARE = '0.1'

/**
 * A rate against one maximum. The number printed in the very unit of the rate decides; without such a line the most
 * generous decides among those that only differ by rounding. A pair that differs by more is never passed over.
 */
export function checkCeiling(rate: Rate, ceiling: Ceiling, figures: Figures = {}): CeilingCheck {
  const compared = ceiling.map((printed) => ({ printed, held: convertRate(rate, printed, figures) }))
  const same = ceiling.find((printed) => isSameForm(rate, printed))
  const decides = same ?? mostGenerous(rate, ceiling, figures)
  if (decides === undefined) {
    const missing = compared.find(({ held }) => !held.ok)?.held
    const need = missing && !missing.ok && missing.error.kind === 'needs' ? missing.error.need : undefined
    return { verdict: 'unknown', need }
  }
  const lines = compared.map(({ printed, held }): CeilingLine => {
    const inUnit = held.ok ? held.value.rate : undefined
    const isAbove = inUnit !== undefined && compareNumbers(inUnit.value, printed.value) > 0
    return { printed, rate: inUnit, isAbove, agreement: agreementOf(printed, decides, figures) }
  })
  return { verdict: verdictOf(lines), decides, lines }
}

function verdictOf(lines: readonly CeilingLine[]): 'within' | 'above' | 'disagrees' {
  if (lines.some((line) => line.agreement === 'decides' && line.isAbove)) return 'above'
  return lines.some((line) => line.agreement === 'disagrees' && line.isAbove) ? 'disagrees' : 'within'
}

function mostGenerous(rate: Rate, ceiling: Ceiling, figures: Figures): Rate | undefined {
  let best: { printed: Rate; share: Big } | undefined
  for (const printed of ceiling) {
    const held = convertRate(rate, printed, figures)
    if (!held.ok) continue
    const share = big(held.value.rate.value).div(printed.value)
    if (!best || share.lt(best.share)) best = { printed, share }
  }
  return best?.printed
}

function agreementOf(printed: Rate, decides: Rate, figures: Figures): CeilingLine['agreement'] {
  if (printed === decides) return 'decides'
  return agreesToRounding(printed, decides, figures) ? 'rounding' : 'disagrees'
}

/**
 * Could both be the same number, each rounded to its last printed digit? `0.113 oz wt/1000 ft2` and `5 oz wt/acre`
 * could. What cannot be compared for want of a figure is taken on the label's word.
 */
export function agreesToRounding(a: Rate, b: Rate, figures: Figures = {}): boolean {
  const inB = convertRate(a, b, figures)
  if (!inB.ok) return true
  const value = big(inB.value.rate.value)
  const slackOfA = halfDigit(a.value).div(a.value).times(value)
  const gap = value.minus(b.value).abs()
  const allowed = slackOfA.plus(halfDigit(b.value))
  return (
    compareNumbers(gap, allowed) <= 0 && compareNumbers(gap, big(b.value).times(MOST_ROUNDING_SHARE)) <= 0
  )
}

/** Half of the last digit that a decimal text shows. */
function halfDigit(value: string): Big {
  const decimals = value.split('.')[1]?.length ?? 0
  return big(10).pow(-decimals).div(2)
}
