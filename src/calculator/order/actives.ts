import { big, sumOf } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import type { AreaRate } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import { isMassUnit } from '#src/quantity/units.ts'
import type { Finding } from '../worked.ts'
import { finding } from '../worked.ts'

/** What one product brings of one active ingredient: a weight per area of ai or ae. */
export interface Share {
  readonly product: string
  readonly active: string
  readonly rate: AreaRate
}

export interface ActiveTotal {
  readonly active: string
  /** In the unit of the first product that holds it. */
  readonly total: AreaRate
  readonly products: readonly string[]
}

/**
 * The sum of each active ingredient over all products of a tank; one that comes twice is pointed out. Acid equivalents
 * and active ingredients of the same name are summed apart: they are not the same figure.
 * @throws RangeError for a rate that is no weight
 */
export function sumActives(shares: readonly Share[]): {
  readonly totals: readonly ActiveTotal[]
  readonly findings: readonly Finding[]
} {
  const groups = new Map<string, Share[]>()
  for (const share of shares) {
    const key = `${share.active.trim().toLowerCase()}\n${share.rate.of}`
    groups.set(key, [...(groups.get(key) ?? []), share])
  }
  const totals = [...groups.values()].map(totalOf)
  const twice = totals.filter((one) => one.products.length > 1)
  return { totals, findings: twice.map(cameTwice) }
}

function totalOf(group: readonly Share[]): ActiveTotal {
  const [first] = group
  if (first === undefined) throw new RangeError('Cannot sum no shares')
  const { unit, per, of } = first.rate
  const sum = sumOf(group.map(({ rate }) => inForm(rate, first.rate)))
  const products = [...new Set(group.map((share) => share.product))]
  return { active: first.active, total: areaRate(sum, unit, per, of), products }
}

function inForm(rate: AreaRate, form: AreaRate) {
  if (!isMassUnit(rate.unit) || !isMassUnit(form.unit))
    throw new RangeError('Cannot sum an active ingredient that is not given as a weight')
  const perBase = amountIn({ value: rate.value, unit: rate.unit }, form.unit).div(
    amountIn(rate.per, form.per.unit),
  )
  return perBase.times(big(form.per.value))
}

function cameTwice(one: ActiveTotal): Finding {
  const figures = { active: one.active, products: { all: one.products }, total: sayRate(one.total) }
  return finding('heads-up', 'order.active-twice', figures)
}
