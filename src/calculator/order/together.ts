import type { Finding } from '../worked.ts'
import { finding } from '../worked.ts'

/** What the label of one product says about partners in the tank. Both lists absent: it says nothing. */
export interface PartnerRule {
  readonly name: string
  /** When given, no other pesticide may go in; an empty list allows none. */
  readonly allowed?: readonly string[]
  readonly forbidden?: readonly string[]
  readonly line?: string
}

type Word = 'allows' | 'forbids' | 'silent'

/** What one label says about another product, by name. */
export function wordOn(rule: PartnerRule, partner: string): Word {
  if (rule.forbidden?.some((name) => isSame(name, partner))) return 'forbids'
  if (rule.allowed === undefined) return 'silent'
  return rule.allowed.some((name) => isSame(name, partner)) ? 'allows' : 'forbids'
}

function isSame(a: string, b: string): boolean {
  return a.trim().toLowerCase() === b.trim().toLowerCase()
}

/**
 * May these go into one tank? A label that forbids is a refusal, whatever the other says; a label that is silent is a
 * hold, since the mix is then not covered by both; nothing is found when every label allows every other.
 */
export function checkTogether(rules: readonly PartnerRule[]): Finding[] {
  return rules.flatMap((rule) =>
    rules.flatMap((partner) => {
      if (partner === rule) return []
      const word = wordOn(rule, partner.name)
      if (word === 'allows') return []
      const figures = { name: rule.name, partner: partner.name, line: rule.line ?? '–' }
      return word === 'forbids'
        ? [finding('refusal', 'order.forbidden', figures)]
        : [finding('hold', 'order.label-silent', { name: rule.name, partner: partner.name })]
    }),
  )
}
