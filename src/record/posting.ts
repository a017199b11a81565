import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import type { Posting } from './state-rules.ts'
import type { Moment } from './values.ts'
import { dayOf } from './values.ts'

/** When signs may come down: at a moment, or on a plain day, at its start or at its sunset. */
export type SignsDown =
  | { readonly kind: 'moment'; readonly atMs: number; readonly orLabelInterval: boolean }
  | {
      readonly kind: 'day'
      readonly day: Day
      readonly atSunset: boolean
      readonly orLabelInterval: boolean
    }

const HOUR_MS = 3_600_000

/** From when on the signs of a job may come down by the state's rule; the label's own interval may be longer. */
export function signsDown({ down }: Posting, endedAt: Moment): SignsDown {
  const orLabelInterval = down.orLabelInterval === true
  if (down.kind === 'hours-after')
    return { kind: 'moment', atMs: endedAt.atMs + down.hours * HOUR_MS, orLabelInterval }
  const days = down.kind === 'days-after' ? down.days : 1
  return {
    kind: 'day',
    day: addDays(dayOf(endedAt), days),
    atSunset: down.kind === 'sunset-next-day',
    orLabelInterval,
  }
}

/** Size, height and time of the signs, as a reminder. */
export function sayPosting({ up, size, lowerEdgeIn, down, where }: Posting): Text {
  const parts: Text[] = [say(`record.sign-up.${up}`)]
  if (size !== null)
    parts.push(
      say('record.sign-size', {
        width: { value: size.widthIn, unit: 'in' },
        height: { value: size.heightIn, unit: 'in' },
      }),
    )
  if (lowerEdgeIn !== null) parts.push(say('record.sign-edge', { edge: { value: lowerEdgeIn, unit: 'in' } }))
  parts.push(sayDown(down))
  return say('record.signs', { parts: { all: parts, join: 'and' }, where: { literal: where } })
}

function sayDown(down: Posting['down']): Text {
  if (down.kind === 'hours-after') return say('record.sign-down.hours', { hours: down.hours })
  if (down.kind === 'days-after') return say('record.sign-down.days', { days: down.days })
  return down.kind === 'next-day' ? say('record.sign-down.next-day') : say('record.sign-down.sunset')
}
