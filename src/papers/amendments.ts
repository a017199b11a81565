import type { Amendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import { isRemoved } from '#src/record/not-recorded.ts'
import { labelOf } from '#src/record/text.ts'
import { printTyped, printValue } from '#src/records/print-value.ts'

/** An amendment in one line: who, when, why, and each value before and after. */
export function printAmendment(amendment: Amendment): string {
  return [amendmentHead(amendment), ...amendment.changes.map(printChange)].join('; ')
}

/** `R1-A1 amends, 2025-07-01 08:00 America/New_York, by Ann: typed it wrong`; without who and why where they are gone. */
export function amendmentHead({ number, at, by, why, voids }: Amendment): string {
  const who = isRemoved(by) ? '' : `, by ${printTyped(by.name)}`
  const reason = isRemoved(why) ? '' : `: ${printValue(why as Json)}`
  const what = voids ? 'voids the record' : 'amends'
  return `${printTyped(number)} ${what}, ${printValue(at as Json)}${who}${reason}`
}

function printChange({ field, before, after }: Amendment['changes'][number]): string {
  return `${labelOf(field)}: was ${printed(before)}, now ${printed(after)}`
}

const printed = (value: Json) => printValue(value) || 'nothing'
