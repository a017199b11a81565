import { say, type Text } from '#src/conversation/text.ts'
import { quantityTrouble } from '#src/conversation/trouble.ts'
import { dayIn } from '#src/desk/clock.ts'
import type { Tools } from '#src/desk/command.ts'
import { minutesOf, momentAt, momentOf } from '#src/desk/moments.ts'
import { type Big, big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import { readWhen } from '#src/when/read-when.ts'
import { whenTrouble } from '#src/when/trouble.ts'

type Read = { readonly ok: true; readonly hours: string } | { readonly ok: false; readonly problem: Text }

const HOUR_MS = 3_600_000
/** Hours from the end of a job to the rain: `2`, `90 min`, or a time of day. Not before the end, and not in the future. */
export function readHours(
  { hours, at }: { readonly hours?: string | undefined; readonly at?: string | undefined },
  endMs: number,
  { nowMs, crew, locale }: Tools,
): Read {
  const language = locale.startsWith('es') ? 'es' : 'en'
  if (hours !== undefined) {
    const read = parseQuantity(hours, { expect: 'time', locale: language, bareUnit: 'h', allowZero: true })
    if (!read.ok) return { ok: false, problem: quantityTrouble(read.error) }
    const found = amountIn(read.value, 'h')
    if (compareNumbers(found.times(HOUR_MS).plus(endMs), nowMs) > 0)
      return { ok: false, problem: say('rained.future') }
    return { ok: true, hours: tenths(found) }
  }
  const now = { day: dayIn(crew.zone, nowMs), minutes: minutesOf(momentOf(crew.zone, nowMs)) }
  const when = readWhen(at ?? '', { now, language, toward: 'past' })
  if (!when.ok) return { ok: false, problem: whenTrouble(when.error) }
  if (when.value.minutes === undefined)
    return { ok: false, problem: say('rained.no-time', { text: at ?? '' }) }
  const rainMs = momentAt(crew.zone, when.value.day ?? now.day, when.value.minutes).atMs
  if (rainMs > nowMs) return { ok: false, problem: say('rained.future') }
  if (rainMs < endMs) return { ok: false, problem: say('rained.before-end') }
  return { ok: true, hours: tenths(big(rainMs - endMs).div(HOUR_MS)) }
}

/** Hours to a tenth, never rounded up: five hours and fifty-nine minutes are not six. */
function tenths(hours: Big): string {
  return decimalText(hours.times(10).floor().div(10))
}
