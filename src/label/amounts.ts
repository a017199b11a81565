import { convertRate, rateRatio } from '#src/calculator/rate/convert.ts'
import type { Figures } from '#src/calculator/rate/figures.ts'
import type { Big } from '#src/quantity/big.ts'
import { big } from '#src/quantity/big.ts'
import type { AreaRate, Output, Rate, RateForm, Strength } from '#src/quantity/rate.ts'
import { areaRate, formOf } from '#src/quantity/rate.ts'
import { isMassUnit } from '#src/quantity/units.ts'
import type { Active, LabelEntry } from './entry.ts'
import { strengthOf } from './figures.ts'

/** What one active is stated at: as ai, and as ae where the label gives it. */
export function strengthsOf({ strength, acid }: Active): readonly Strength[] {
  return acid === undefined ? [strengthOf(strength)] : [strengthOf(strength), strengthOf(acid)]
}

/** What is known for turning rates of this product. With several actives a rate of "ai" is nobody's, so none counts. */
export function figuresFor({ actives }: LabelEntry, output?: Output, active = onlyOne(actives)): Figures {
  return {
    strengths: active === undefined ? [] : strengthsOf(active),
    ...(output === undefined ? {} : { output }),
  }
}

function onlyOne(actives: readonly Active[]): Active | undefined {
  return actives.length === 1 ? actives[0] : undefined
}

/** A rate in another form, or null when a figure is lacking for that. */
export function inForm(rate: Rate, form: RateForm, figures: Figures = {}): Rate | null {
  const converted = convertRate(rate, form, figures)
  return converted.ok ? converted.value.rate : null
}

/** An amount per area in the unit of another one; null when a figure is lacking for that. */
export function inUnitOf(rate: Rate, like: AreaRate, figures: Figures = {}): AreaRate | null {
  const same = inForm(rate, formOf(like), figures)
  return same?.kind === 'area' ? same : null
}

/** How one rate compares with another, as a bare number; null when a figure is lacking for that. */
export function ratioTo(rate: Rate, against: Rate, figures: Figures = {}): Big | null {
  const ratio = rateRatio(rate, against, figures)
  return ratio.ok ? big(ratio.value) : null
}

/** Product per area as active per area, counted as the strength says; null when its form does not allow it. */
export function asActive(product: AreaRate, strength: Strength): AreaRate | null {
  const unit = isMassUnit(product.unit) ? product.unit : 'lb'
  return inUnitOf(product, areaRate(0, unit, product.per, strength.of), { strengths: [strength] })
}
