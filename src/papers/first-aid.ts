import type { ProductUsed } from '#src/record/product.ts'
import { printTyped } from '#src/records/print-value.ts'
import type { PaperRead } from './source.ts'

/** What stands where the label book holds no first aid for a product. */
export const NO_FIRST_AID = 'Not in the label book. Read the label itself.'

const AFTER = {
  swallowed: 'If swallowed',
  skin: 'If on skin',
  eyes: 'If in eyes',
  breathed: 'If breathed in',
  any: 'In any case',
} as const

/** First aid as the label of the product prints it. */
export function firstAidOf({ entries }: PaperRead, { name }: ProductUsed): string {
  const entry = entries.find((one) => one.name === name)
  const texts = entry?.safety.firstAid ?? []
  if (texts.length === 0) return NO_FIRST_AID
  return texts.map(({ after, words }) => `${AFTER[after]}: ${printTyped(words)}`).join(' ')
}
