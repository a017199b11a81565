import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, quantity, scale } from '#src/quantity/quantity.ts'
import type { AreaRate, Output } from '#src/quantity/rate.ts'
import type { AmountUnit, VolumeUnit } from '#src/quantity/units.ts'
import type { Calculated } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'

export interface JarItem {
  readonly name: string
  readonly rate: AreaRate
}

export interface Jar {
  readonly volume: Quantity<VolumeUnit>
  /** Water to begin with, before the first product. */
  readonly start: Quantity<VolumeUnit>
  readonly amounts: readonly { readonly name: string; readonly amount: Quantity<AmountUnit> }[]
}

/** GRDC fills the jar to 60 percent before the first product. */
const START_SHARE = '0.6'

/**
 * The tank's mix in a jar (F37): every product in the very ratio of the tank, its rate times jar over output. GRDC
 * (Australia), Spray Application Manual module 7.5. Utah State's fixed spoonfuls are not in the ratio of the tank.
 */
export function scaleToJar(
  items: readonly JarItem[],
  output: Output,
  jar: Quantity<VolumeUnit>,
): Calculated<Jar> {
  if (compareNumbers(jar.value, 0) <= 0 || compareNumbers(output.value, 0) <= 0)
    return blocked(finding('refusal', 'order.jar-not-above-zero', { given: jar }))
  const acres = amountIn(jar, output.unit).div(big(output.value)).times(amountIn(output.per, 'acre'))
  const amounts = items.map(({ name, rate }) => {
    const times = acres.div(amountIn(rate.per, 'acre'))
    return { name, amount: quantity(big(rate.value).times(times), rate.unit) }
  })
  const steps = amounts.map(({ name, amount }) => step('order.jar-amount', { name, amount }))
  const start = scale(jar, START_SHARE)
  return worked({ volume: jar, start, amounts }, [step('order.jar-start', { jar, start }), ...steps])
}

/** What shows that a mix does not go together (Utah State University Extension: wait 15 minutes). */
export const jarSigns = ['layers', 'clumps', 'foam', 'sludge', 'warmth'] as const
export type JarSign = (typeof jarSigns)[number]
export const JAR_WAIT_MINUTES = 15

/** A hold when anything was seen; nothing seen is no proof, so it stays a heads-up. */
export function judgeJar(seen: readonly JarSign[]) {
  if (seen.length === 0) return finding('heads-up', 'order.jar-clean', { minutes: JAR_WAIT_MINUTES })
  const signs = seen.map((sign) => ({ say: `order.sign.${sign}` }))
  return finding('hold', 'order.jar-failed', { signs: { all: signs } })
}
