import { describe, expect, test } from 'vitest'
import { addDays, dayIn, momentIn } from '#src/desk/clock.ts'
import { everydayPlace } from '#tests/helpers/engines.ts'
import { aCrewOfLooks, everyDay, messenger, passes } from './crew-of-looks.ts'

/**
 * Sundays on which clocks change, by the time zone database (tzdata 2024a or later): an hour in most places, half an
 * hour on Lord Howe Island, at midnight in Santiago, in the Southern half the other way round.
 */
const changes = [
  ['America/New_York', '2026-03-08', 'forward'],
  ['America/New_York', '2026-11-01', 'back'],
  ['America/Denver', '2027-03-14', 'forward'],
  ['America/Denver', '2027-11-07', 'back'],
  ['Europe/Berlin', '2026-03-29', 'forward'],
  ['Europe/Berlin', '2026-10-25', 'back'],
  ['Australia/Lord_Howe', '2026-10-04', 'forward'],
  ['Australia/Lord_Howe', '2026-04-05', 'back'],
  ['America/Santiago', '2026-09-06', 'forward'],
  ['America/Santiago', '2026-04-05', 'back'],
] as const

const QUARTER_MS = 900_000

describe('the morning of a change of clocks', () => {
  const place = everydayPlace()

  test.each(changes)(
    '%s, %s, clocks %s: one message a day, each at seven by the wall',
    async (zone, sunday) => {
      // One look falls due on the Saturday before, one on the Sunday, one on the Monday.
      const due = [addDays(sunday, -1), sunday, addDays(sunday, 1)]
      const looking = await aCrewOfLooks(
        await place.open(),
        due.map((day) => addDays(day, -14)),
        { zone, workdays: everyDay },
      )
      const platform = messenger()
      const fromMs = momentIn(zone, addDays(sunday, -2), '12:00')
      await passes(
        looking.database,
        { fromMs, toMs: fromMs + 3.4 * 86_400_000, everyMs: QUARTER_MS },
        platform,
      )
      const clock = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, timeStyle: 'short' })
      const owned = platform.seen.filter(({ to }) => to === 'owner')
      expect(owned.map(({ atMs }) => `${dayIn(zone, atMs)} ${clock.format(atMs)}`)).toEqual(
        due.map((day) => `${day} 07:00`),
      )
    },
  )
})
