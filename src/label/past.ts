import type { AreaRate } from '#src/quantity/rate.ts'
import { asActive, strengthsOf } from './amounts.ts'
import type { LabelEntry } from './entry.ts'
import type { PastActive } from './situation.ts'

/**
 * What a rate of this product leaves of each active on the ground, as ai and, where the label states it, as ae. An
 * active whose share cannot be told from the rate (a percentage of a liquid) has no amounts.
 */
export function activesLeft(entry: LabelEntry, product: AreaRate): readonly PastActive[] {
  return entry.actives.map((active) => ({
    name: active.name,
    ...(active.group === undefined ? {} : { group: active.group }),
    amounts: strengthsOf(active)
      .map((strength) => asActive(product, strength))
      .filter((amount) => amount !== null),
  }))
}
