import { checkTogether, type PartnerRule } from '#src/calculator/order/together.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import { refuseTank } from './find-parts.ts'
import type { Part } from './part.ts'

/** Products whose labels do not allow each other: a refusal, whatever else they say. Null when none does. */
export function refusePartners(parts: readonly Part[]): Answer | null {
  const rules = parts.map(({ named }): PartnerRule => {
    const { name, limits } = named.product.live.body
    const { allowed, forbidden, line } = limits.tankMix ?? {}
    return {
      name,
      ...(allowed === undefined ? {} : { allowed }),
      ...(forbidden === undefined ? {} : { forbidden }),
      ...(line === undefined ? {} : { line }),
    }
  })
  const [first, ...rest] = checkTogether(rules)
    .filter(({ outcome }) => outcome === 'refusal')
    .map(({ id, with: figures }) => say(id, figures))
  return first === undefined ? null : refuseTank(first, rest)
}
