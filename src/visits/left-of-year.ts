import type { Choice } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { mostLeftOf } from '#src/efficacy/left.ts'
import { compareOutcomes } from '#src/label/verdict.ts'
import { compareNumbers, decimalText } from '#src/quantity/big.ts'
import { amountIn, type Quantity } from '#src/quantity/quantity.ts'
import { sayRate } from '#src/quantity/said.ts'
import { dimensionOf } from '#src/quantity/units.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { Application } from './application.ts'
import { type LabelSays, productSays } from './label-says.ts'
import { mixOptions } from './mix-again.ts'

/** What is left of the year on the treated ground, and the press to it where the label allows so little. */
export interface LeftOfYear {
  readonly line: Text
  readonly choices: readonly Choice[]
}

/** Null when no yearly limit stands in the way, or nothing of it is left. */
export async function leftOfYear(
  application: Application,
  label: LabelSays,
  tools: Tools,
): Promise<LeftOfYear | null> {
  const [says, ...others] = label.products
  const ground = recorded(application.record.treatedArea)
  const isYear = label.verdict.reasons.some(({ id }) => id === 'label.above-year')
  if (says === undefined || others.length > 0 || ground === undefined || !isYear) return null
  const rate = recorded(says.product.used.rate)
  if (rate?.kind !== 'area') return null
  const areaFt2 = decimalText(amountIn(ground, 'ft2'))
  const step = finestStep(rate.unit, tools)
  const left = mostLeftOf(says.verdict, { areaFt2, step })
  if (left === null || compareNumbers(left.measured.value, 0) <= 0) return null
  const again = await productSays(
    { application, product: says.product, on: label.on, rate: left.rate },
    tools,
  )
  const isEnough =
    compareOutcomes(again.verdict.outcome, 'heads-up') <= 0 &&
    again.verdict.reasons.every(({ id }) => id !== 'label.below-lowest')
  const figures = {
    rate: sayRate(left.rate),
    amount: { value: left.measured.value, unit: left.measured.unit },
    ground: { value: areaFt2, unit: 'ft2' },
  }
  const options = isEnough ? mixOptions(application, left.rate) : null
  return {
    line: say(isEnough ? 'visits.left' : 'visits.left-too-little', figures),
    choices:
      options === null
        ? []
        : [{ label: say('visits.mix-left', { rate: figures.rate }), to: { command: 'mix', options } }],
  }
}

/** The finest of the crew's tools for this kind of unit; tenths of the unit where it has none. */
function finestStep(unit: Quantity['unit'], { crew }: Tools): Quantity {
  const fitting = crew.settings.tools
    .map(({ step }) => step as Quantity)
    .filter((step) => dimensionOf(step.unit) === dimensionOf(unit))
    .sort((a, b) => compareNumbers(amountIn(a, unit), amountIn(b, unit)))
  return fitting[0] ?? { value: '0.1', unit }
}
