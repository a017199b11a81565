import type { AreaRate } from '#src/quantity/rate.ts'
import { asActive } from './amounts.ts'
import type { LabelEntry } from './entry.ts'
import { strengthOf } from './figures.ts'
import type { PastActive } from './situation.ts'

/**
 * What a rate of this product leaves of each active on the ground, as ai and, where the label states it, as ae. An
 * active whose share cannot be told from the rate (a percentage of a liquid) has no amounts.
 */
export function activesLeft(entry: LabelEntry, product: AreaRate): readonly PastActive[] {
  return entry.actives.map(({ name, strength, acid, group }) => ({
    name,
    ...(group === undefined ? {} : { group }),
    amounts: [strength, ...(acid === undefined ? [] : [acid])]
      .map((text) => asActive(product, strengthOf(text)))
      .filter((amount) => amount !== null),
  }))
}
