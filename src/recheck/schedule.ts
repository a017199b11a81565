import type { Day } from '#src/label/day.ts'
import { addDays } from '#src/label/day.ts'
import { extraWindows } from './extras.ts'
import type { CrewDays } from './place.ts'
import { placeWindow, pushWindow } from './place.ts'
import type { Look, LookPlan } from './plan.ts'
import type { LookFor, LookRow, Purpose, ScheduleTable, Treated } from './table.ts'
import { findRow } from './table.ts'

export interface LookRequest extends Treated {
  readonly treatedOn: Day
  /** Days that the label wants between two applications, where it says so. */
  readonly intervalDays?: number
  /** Is a second application meant, if this one is not enough? */
  readonly secondMeant: boolean
  /** Day on which seed or sod is planned. */
  readonly seedingOn?: Day
}

/**
 * The looks after an application, as windows of plain days in order and apart. Where a second application is meant,
 * the look that decides on it never begins before the label's interval is over.
 */
export function planLooks(request: LookRequest, table: ScheduleTable, crew: CrewDays): LookPlan {
  const row = findRow(table, request)
  const { treatedOn, intervalDays } = request
  const notBefore =
    request.secondMeant && intervalDays !== undefined ? addDays(treatedOn, intervalDays) : undefined
  const usual: Look[] = []
  for (const look of row.looks) {
    const window = { from: addDays(treatedOn, look.fromDay), to: addDays(treatedOn, look.toDay) }
    usual.push(placeLook(look, afterInterval(look, window, notBefore), { before: usual.at(-1), crew }))
  }
  const looks = extraWindows(row.extras, request).reduce<readonly Look[]>(
    (placed, extra) => addExtra(placed, extra, crew),
    usual,
  )
  return {
    version: 1,
    row: row.id,
    treatedOn,
    judgeFrom: addDays(treatedOn, row.judgeFromDay),
    ...(notBefore === undefined ? {} : { notBefore }),
    looks: [...looks].sort(inOrder),
  }
}

/** One look that stands alone: a plant that was held is looked at again on or after a day. */
export function planSingleLook(
  single: {
    readonly heldOn: Day
    readonly from: Day
    readonly to: Day
    readonly lookFor: readonly LookFor[]
  },
  crew: CrewDays,
): LookPlan {
  const { heldOn, from, to, lookFor } = single
  const looks = [newLook({ id: 'identify', purpose: 'identify', lookFor }, { from, to }, crew)]
  return { version: 1, row: 'held', treatedOn: heldOn, judgeFrom: from, looks }
}

interface Window {
  readonly from: Day
  readonly to: Day
}

function afterInterval({ purpose }: LookRow, window: Window, notBefore: Day | undefined): Window {
  return purpose === 'decide' && notBefore !== undefined ? pushWindow(window, notBefore, 'whole') : window
}

function placeLook(
  look: LookRow,
  window: Window,
  { before, crew }: { readonly before: Look | undefined; readonly crew: CrewDays },
): Look {
  const free = before === undefined ? window : pushWindow(window, addDays(before.to, 1), 'cut')
  return newLook(look, free, crew)
}

interface NewLook {
  readonly id: string
  readonly purpose: Purpose
  readonly lookFor: readonly LookFor[]
}

function newLook({ id, purpose, lookFor }: NewLook, { from, to }: Window, crew: CrewDays): Look {
  return {
    id,
    purpose,
    ...placeWindow(from, to, crew),
    lookFor: [...lookFor],
    status: { kind: 'planned' },
    reminders: [],
  }
}

/** A look of its own where there is room; else the look that stands there takes its questions along: one visit, not two. */
function addExtra(
  placed: readonly Look[],
  extra: { readonly id: string; readonly lookFor: readonly LookFor[]; readonly window: Window },
  crew: CrewDays,
): readonly Look[] {
  const look = newLook({ ...extra, purpose: 'after' }, extra.window, crew)
  const host = placed.find((other) => other.from <= look.to && look.from <= other.to)
  if (host === undefined) return [...placed, look].sort(inOrder)
  const lookFor = [...new Set([...host.lookFor, ...extra.lookFor])]
  return placed.map((other) => (other === host ? { ...other, lookFor } : other))
}

function inOrder(a: Look, b: Look): number {
  return a.from < b.from ? -1 : 1
}
