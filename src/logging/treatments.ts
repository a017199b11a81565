import { big, decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { sayRate } from '#src/quantity/said.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { rateOnGround } from '#src/record/totals.ts'
import type { LogEnv } from './env.ts'

/**
 * Puts a job into the history of its ground, by which later mixes and logs are checked: one treatment for each product
 * of the label book, at the rate that really went on the treated ground. Returns their ids.
 */
export async function addTreatments(env: LogEnv): Promise<number[]> {
  const { draft, area, tools } = env
  const day = recorded(draft.date)
  if (area === null || day === undefined) return []
  const size = recorded(draft.treatedArea)
  const ids: number[] = []
  for (const product of recorded(draft.products) ?? []) {
    const { entryId, revisionId } = product
    if (entryId === undefined || revisionId === undefined) continue
    const rate = rateOnGround(product, draft) ?? recorded(product.rate)
    const { value, unit } = rate === undefined ? { value: '', unit: '' } : sayRate(rate)
    ids.push(
      await tools.store.treatments.add(
        {
          areaId: area.id,
          entryId,
          revisionId,
          personId: recorded(draft.applicator)?.id ?? tools.person.id,
          details: {
            product: product.name,
            rate: `${readable(value)} ${unit}`.trim(),
            lineId: product.line ?? null,
            treatedFt2: size === undefined ? area.squareFeet : decimalText(amountIn(size, 'ft2')),
            amount: recorded(product.amount) ?? null,
            note: '',
          },
          treatedOn: day,
        },
        tools.nowMs,
      ),
    )
  }
  return ids
}

/** More digits than these are not read back, and a rate that cannot be read would hold every later check. */
const DIGITS = 20

function readable(value: string): string {
  return value === '' ? '' : decimalText(big(value).toSignificantDigits(DIGITS))
}
