import { z } from 'zod'
import { PlainDay } from '#src/label/day.ts'
import { LookFor, Purpose } from './table.ts'

/** A message that asked for a look, and who was asked. */
export const Reminder = z.strictObject({ on: PlainDay, to: z.enum(['owner', 'lead']) })
export type Reminder = z.infer<typeof Reminder>

/** Why a look was never taken: somebody's words, or a later look that was taken first. */
const Skipped = z.strictObject({
  kind: z.literal('skipped'),
  on: PlainDay,
  by: z.string().min(1),
  reason: z.string().min(1).max(500),
})

export const LookStatus = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('planned') }),
  z.strictObject({ kind: z.literal('looked'), on: PlainDay, by: z.string().min(1) }),
  Skipped,
  z.strictObject({ kind: z.literal('overtaken'), on: PlainDay, by: z.string().min(1), lookId: z.string() }),
])
export type LookStatus = z.infer<typeof LookStatus>

/** One planned look: its window, both days in, and the day on which somebody is asked to go. */
export const Look = z.strictObject({
  id: z.string().min(1),
  purpose: Purpose,
  from: PlainDay,
  to: PlainDay,
  visitOn: PlainDay,
  lookFor: z.array(LookFor).min(1),
  /** The person it was handed to; the owner of the plan otherwise. */
  handedTo: z.string().min(1).exactOptional(),
  status: LookStatus,
  reminders: z.array(Reminder),
  /** Day of a visit that could not be judged, and that this look makes good. */
  again: PlainDay.exactOptional(),
})
export type Look = z.infer<typeof Look>

/** All looks after one application, in the order of their windows. State of its own, kept as JSON. */
export const LookPlan = z.strictObject({
  version: z.literal(1),
  /** Row of the schedule that it was made from. */
  row: z.string().min(1),
  treatedOn: PlainDay,
  /** First day on which a result can be judged. */
  judgeFrom: PlainDay,
  /** No second application before this day, by the label's interval; absent where none is meant or known. */
  notBefore: PlainDay.exactOptional(),
  looks: z.array(Look).min(1),
})
export type LookPlan = z.infer<typeof LookPlan>

export function isPlanned({ status }: Look): boolean {
  return status.kind === 'planned'
}

/** The next look that is still to come or to be taken; null when all are closed. */
export function nextLookOf({ looks }: LookPlan): Look | null {
  return looks.find(isPlanned) ?? null
}

/** The look that is to be taken, moved or skipped on this day: the last one whose window has begun, else the next one. */
export function lookOn({ looks }: LookPlan, day: string): Look | null {
  const open = looks.filter(isPlanned)
  return open.filter(({ from }) => from <= day).at(-1) ?? open[0] ?? null
}

/**
 * The look that a rating on this day answers; null when the next window has not begun, so that what was seen early is
 * kept beside the looks and uses none of them up. Somebody who rates twice in a day puts the first right: the look that
 * was taken that day stays the one.
 */
export function lookRatedOn(plan: LookPlan, day: string): Look | null {
  const look = lookOn(plan, day)
  if (look !== null && look.from <= day) return look
  const taken = plan.looks.filter(({ status }) => status.kind === 'looked' && status.on === day)
  return taken.at(-1) ?? null
}
