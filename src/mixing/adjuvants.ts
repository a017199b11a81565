import type { Adjuvant } from '#src/calculator/mix/request.ts'
import type { Reader } from '#src/conversation/reader.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { parseRate } from '#src/quantity/parse-rate.ts'

const NONE = /^(no|none|ninguno|sin)$/i
const SOME = /^(yes|s[ií]|with|con)$/i

/** What the label puts beside the product, at the label's own rate: what it needs, or allows and somebody wants. */
export function adjuvantsOfLabel(entry: LabelEntry | undefined, wanted: 'needed' | 'allowed'): Adjuvant[] {
  const rule = entry?.limits.adjuvant
  if (rule?.rate === undefined || rule.rule === 'forbidden') return []
  if (rule.rule === 'allowed' && wanted === 'needed') return []
  const rate = parseRate(rule.rate, { percent: 'v/v', ounce: 'fl oz' })
  return rate.ok ? [{ name: rule.kind ?? 'adjuvant', rate: rate.value }] : []
}

/** The adjuvant that was typed; else the one that the label needs. */
export function chooseAdjuvants(
  typed: string | undefined,
  entry: LabelEntry | undefined,
  read: Reader,
): Adjuvant[] {
  if (typed === undefined) return adjuvantsOfLabel(entry, 'needed')
  if (NONE.test(typed)) return []
  if (SOME.test(typed)) return adjuvantsOfLabel(entry, 'allowed')
  const rate = read.rate('adjuvant', typed, { percent: 'v/v', ounce: 'fl oz' })
  return rate === undefined ? [] : [{ name: 'adjuvant', rate }]
}
