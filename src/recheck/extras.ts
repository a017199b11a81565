import type { Day } from '#src/label/day.ts'
import { addDays, daysBetween, laterOf } from '#src/label/day.ts'
import type { LookRequest } from './schedule.ts'
import type { ExtraLook, LookFor } from './table.ts'

export interface ExtraWindow {
  readonly id: string
  readonly lookFor: readonly LookFor[]
  readonly window: { readonly from: Day; readonly to: Day }
}

/** The windows of the looks beside the usual ones; those whose time does not come are left out. */
export function extraWindows(
  extras: readonly ExtraLook[],
  request: Pick<LookRequest, 'treatedOn' | 'seedingOn'>,
): readonly ExtraWindow[] {
  return extras.flatMap((extra) => {
    const windows = windowsOf(extra, request)
    return windows.map((window, at) => ({
      id: windows.length > 1 ? `${extra.id}-${at + 1}` : extra.id,
      lookFor: extra.lookFor,
      window,
    }))
  })
}

type Windows = readonly { readonly from: Day; readonly to: Day }[]

function windowsOf(
  extra: ExtraLook,
  { treatedOn, seedingOn }: Pick<LookRequest, 'treatedOn' | 'seedingOn'>,
): Windows {
  switch (extra.when) {
    case 'days':
      return [{ from: addDays(treatedOn, extra.fromDay), to: addDays(treatedOn, extra.toDay) }]
    case 'repeat':
      return repeated(extra, treatedOn)
    case 'season':
      return extra.treatedFrom === undefined || treatedOn.slice(5) >= extra.treatedFrom
        ? [nextSeason(extra, treatedOn)]
        : []
    case 'before-seeding':
      return seedingOn === undefined ? [] : beforeSeeding(extra.daysBefore, treatedOn, seedingOn)
  }
}

/** A window each so many days, while it begins in the season in which it was treated. */
function repeated({ everyDays, spanDays, until }: Extract<ExtraLook, { when: 'repeat' }>, on: Day): Windows {
  const last = `${on.slice(0, 4)}-${until}`
  const times = Math.floor(Math.max(0, daysBetween(on, last)) / everyDays)
  return Array.from({ length: times }, (_, at) => {
    const from = addDays(on, (at + 1) * everyDays)
    return { from, to: addDays(from, spanDays) }
  })
}

/** The next time of that name in another growing season: from this year's end of winter on when treated before it. */
function nextSeason({ from, to }: Extract<ExtraLook, { when: 'season' }>, treatedOn: Day): Windows[number] {
  const isSameYear = isBeforeGrowth(treatedOn)
  const year = Number(treatedOn.slice(0, 4)) + (isSameYear ? 0 : 1)
  return { from: `${year}-${from}`, to: `${year}-${to}` }
}

/** January to the end of February: what was treated then is judged in the spring that follows. */
function isBeforeGrowth(day: Day): boolean {
  return day.slice(5) < '03-01'
}

function beforeSeeding(daysBefore: number, treatedOn: Day, seedingOn: Day): Windows {
  const from = laterOf(addDays(seedingOn, -daysBefore), addDays(treatedOn, 1))
  const to = addDays(seedingOn, -1)
  return from <= to ? [{ from, to }] : []
}
