import type { Mix } from '#src/calculator/mix/outcome.ts'
import type { Fact } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { Ready } from './ready.ts'

type Concentrate = NonNullable<Mix['concentrate']>

/** In the unit of the scale that was typed; else in the unit in which the rate was asked. */
export function inAsked({ given }: Pick<Ready, 'given'>, concentrate: Concentrate): Quantity {
  return given.scale === undefined ? concentrate.inRateUnit : concentrate.measured
}

/** The unit in which no product at all is told. */
export const concentrateUnit = ({ rate }: Ready) => (rate.kind === 'share' ? 'fl oz' : rate.unit)

export const figure = ({ value, unit }: { value: string; unit: string }) => ({
  value: factValue(value),
  unit,
})

export function fillFacts(ready: Ready, mix: Mix): Fact[] {
  const { concentrate, adjuvants } = mix
  const none = { value: 0, unit: concentrateUnit(ready) }
  return [
    { name: 'concentrate', ...(concentrate === undefined ? none : figure(inAsked(ready, concentrate))) },
    { name: 'concentrate_exact', ...(concentrate === undefined ? none : figure(concentrate.exact)) },
    ...(concentrate === undefined ? [] : [{ name: 'concentrate_tool', ...figure(concentrate.measured) }]),
    { name: 'tank', ...figure(mix.fillTo) },
    ...(mix.areaCovered === undefined ? [] : [{ name: 'area_covered', ...figure(mix.areaCovered) }]),
    { name: 'rate_applied', ...figure(sayRate(mix.rateApplied)) },
    ...(mix.rateOnGround === undefined
      ? []
      : [{ name: 'rate_on_ground', ...figure(sayRate(mix.rateOnGround)) }]),
    ...adjuvants.slice(0, 1).map(({ measured }) => ({ name: 'adjuvant', ...figure(measured) })),
    ...(mix.leftover === undefined ? [] : [{ name: 'leftover', ...figure(mix.leftover) }]),
  ]
}

/** Which entry and which version of it the answer rests on. */
export function productFacts({ named, verdict }: Ready): Fact[] {
  if (named.product === null) return []
  const { live, name } = named.product
  return [
    { name: 'product', value: name },
    {
      name: 'label_version',
      value: `${live.body.label.version} (${live.body.label.date}), entry ${live.revision}`,
    },
    ...(verdict?.rateLines[0] === undefined ? [] : [{ name: 'rate_line', value: verdict.rateLines[0].id }]),
    ...(verdict?.leftThisYear ?? [])
      .slice(0, 1)
      .map(({ left }) => ({ name: 'left_this_year', ...figure(sayRate(left)) })),
  ]
}
