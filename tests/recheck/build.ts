import fc from 'fast-check'
import { addDays } from '#src/label/day.ts'
import type { CrewDays } from '#src/recheck/place.ts'
import type { LookPlan } from '#src/recheck/plan.ts'
import type { LookRequest } from '#src/recheck/schedule.ts'
import { planLooks } from '#src/recheck/schedule.ts'
import type { ScheduleTable } from '#src/recheck/table.ts'
import { readSchedule } from '../../data/recheck/load.ts'

export const table: ScheduleTable = readSchedule()

/** A crew that works every day, so that windows stand where the table puts them. */
export const everyDay: CrewDays = { workdays: { weekdays: [1, 2, 3, 4, 5, 6, 7], daysOff: [] } }
export const mondayToFriday: CrewDays = { workdays: { weekdays: [1, 2, 3, 4, 5], daysOff: [] } }

/** Yellow nutsedge, treated on Monday 4 May 2026. */
export function request(parts: Partial<LookRequest> = {}): LookRequest {
  return { treatedOn: '2026-05-04', group: 'sedge', lifecycles: ['perennial'], secondMeant: true, ...parts }
}

export function plan(parts: Partial<LookRequest> = {}, crew: CrewDays = everyDay): LookPlan {
  return planLooks(request(parts), table, crew)
}

/** `first 2026-05-18..2026-05-24`, a line a look. */
export function windows({ looks }: LookPlan): string[] {
  return looks.map(({ id, from, to }) => `${id} ${from}..${to}`)
}

export const anyDay = fc.integer({ min: 0, max: 3650 }).map((days) => addDays('2024-01-01', days))

export const anyCrew: fc.Arbitrary<CrewDays> = fc
  .record({
    weekdays: fc.subarray([1, 2, 3, 4, 5, 6, 7], { minLength: 1 }),
    off: fc.array(fc.integer({ min: 0, max: 120 }), { maxLength: 40 }),
    round: fc.option(fc.integer({ min: 1, max: 45 })),
  })
  .map(({ weekdays, off, round }) => ({
    workdays: { weekdays, daysOff: off.map((days) => addDays('2026-05-04', days)) },
    ...(round === null ? {} : { round: { kind: 'every', days: round, from: '2026-05-01' } as const }),
  }))

export const anyRequest: fc.Arbitrary<LookRequest> = fc
  .record({
    group: fc.constantFrom('grass', 'sedge', 'rush', 'broadleaf', 'other-monocot', 'unknown'),
    lifecycles: fc.subarray(['annual', 'summer-annual', 'winter-annual', 'biennial', 'perennial']),
    nonSelective: fc.boolean(),
    action: fc.constantFrom('contact' as const, 'systemic' as const),
    secondMeant: fc.boolean(),
    interval: fc.option(fc.integer({ min: 1, max: 120 })),
    ahead: fc.integer({ min: 0, max: 300 }),
    seeding: fc.option(fc.integer({ min: 1, max: 90 })),
  })
  .map(({ interval, ahead, seeding, ...rest }) => {
    const treatedOn = addDays('2026-03-01', ahead)
    return {
      ...rest,
      treatedOn,
      ...(interval === null ? {} : { intervalDays: interval }),
      ...(seeding === null ? {} : { seedingOn: addDays(treatedOn, seeding) }),
    } as LookRequest
  })

/** Windows that lie one after the other without touching, each with its visit inside. */
export function isOrdered({ looks }: LookPlan): boolean {
  return looks.every((look, at) => {
    const before = looks[at - 1]
    const isAfter = before === undefined || before.to < look.from
    return isAfter && look.from <= look.visitOn && look.visitOn <= look.to
  })
}
