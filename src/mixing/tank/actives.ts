import { type ActiveTotal, type Share, sumActives } from '#src/calculator/order/actives.ts'
import type { Step } from '#src/calculator/worked.ts'
import { activesLeft } from '#src/label/past.ts'
import type { Output } from '#src/quantity/rate.ts'
import { isMassUnit } from '#src/quantity/units.ts'
import { type Dosed, productOnGround } from './judge.ts'

/** What all products of the tank together leave of each active; one that comes twice is pointed out. */
export function activesOf(
  dosed: readonly Dosed[],
  output: Output | undefined,
): { readonly totals: readonly ActiveTotal[]; readonly findings: readonly Step[] } {
  const shares = dosed.flatMap(({ part, rate }): Share[] => {
    const { body } = part.named.product.live
    const product = productOnGround(part.named, rate, output)
    if (product === null) return []
    return activesLeft(body, product).flatMap(({ name, amounts }) =>
      amounts
        .filter(({ unit }) => isMassUnit(unit))
        .map((amount) => ({ product: body.name, active: name, rate: amount })),
    )
  })
  return sumActives(shares)
}
