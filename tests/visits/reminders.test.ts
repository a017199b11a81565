import { expect, test } from 'vitest'
import { addDays, dayIn, momentIn } from '#src/desk/clock.ts'
import { next } from '#src/recheck/next.ts'
import type { OwnDays } from '#src/recheck/workdays.ts'
import { CrewSettings } from '#src/store/crews.ts'
import { crewDaysOf } from '#src/visits/crew-days.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aPerson } from '#tests/helpers/rows.ts'
import { aCrewOfLooks, everyDay, type Looking, messenger, pass, passes, type Seen } from './crew-of-looks.ts'

const ZONE = 'America/Chicago'
const MINUTE_MS = 60_000
const HOUR_MS = 60 * MINUTE_MS
const at = (day: string, time: string) => momentIn(ZONE, day, time)

/** `2026-05-18 07:00 owner`: when and to whom. */
const shown = ({ atMs, to }: Seen) =>
  `${dayIn(ZONE, atMs)} ${new Intl.DateTimeFormat('sv-SE', { timeZone: ZONE, timeStyle: 'short' }).format(atMs)} ${to}`

const titles = ({ answered }: Seen) => answered.reply.title.say

/** From a morning to another, a pass every half hour. */
const live = (looking: Looking, from: string, to: string, platform: ReturnType<typeof messenger>) =>
  passes(
    looking.database,
    { fromMs: at(from, '00:00'), toMs: at(to, '00:00'), everyMs: 30 * MINUTE_MS },
    platform,
  )

/** The owner of the looks says when they work. */
const off = (looking: Looking, days: OwnDays) =>
  looking.store(async (store) => {
    const owner = await store.people.get(looking.ids.owner)
    if (owner === undefined) throw new Error('The owner is gone')
    await store.people.update(owner.id, { settings: { ...owner.settings, days } })
  })

eachEngine('reminders', (place) => {
  test('a single look opens in the message itself, in the morning of its day and not before', async () => {
    // Treated on Monday, 4 May: the first look is from 18 May on.
    const looking = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const platform = messenger()
    await live(looking, '2026-05-16', '2026-05-19', platform)
    expect(platform.seen.map(shown)).toEqual(['2026-05-18 07:00 owner'])
    const [message] = platform.seen
    expect(message?.answered.reply.title.say).toBe('visits.look')
    expect(message?.answered.reply.form?.to).toEqual({
      step: 'rated',
      value: { visit: looking.ids.visits[0] },
    })
  })

  test('ten looks are one message, with a press for each', async () => {
    const looking = await aCrewOfLooks(await place.open(), Array(10).fill('2026-05-04'))
    const platform = messenger()
    await live(looking, '2026-05-18', '2026-05-19', platform)
    expect(platform.seen.map(shown)).toEqual(['2026-05-18 07:00 owner'])
    expect(platform.seen[0]?.answered.reply.choices).toHaveLength(10)
  })

  test('a day off and hours off are waited for', async () => {
    // Treated on a Saturday: 14 days later is a Saturday again, and Monday is a day off.
    const looking = await aCrewOfLooks(await place.open(), ['2026-05-02'], {
      workdays: { weekdays: [1, 2, 3, 4, 5], daysOff: ['2026-05-18'] },
    })
    const platform = messenger()
    await live(looking, '2026-05-15', '2026-05-20', platform)
    expect(platform.seen.map(shown)).toEqual(['2026-05-19 07:00 owner'])
  })

  test('a person’s own days are kept: not on a day off, and on a Saturday for whoever works then', async () => {
    const looking = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    await off(looking, { weekdays: [3, 6], daysOff: ['2026-05-20'] })
    const platform = messenger()
    await live(looking, '2026-05-16', '2026-05-24', platform)
    expect(platform.seen.map(shown)).toEqual(['2026-05-23 07:00 owner'])
  })

  test('whoever is off until it is too late hears nothing, the lead does; back again, they are asked themselves', async () => {
    // The first look can be taken until Sunday the 24th.
    const looking = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    await off(looking, {
      weekdays: null,
      daysOff: Array.from({ length: 8 }, (_, at) => addDays('2026-05-18', at)),
    })
    const platform = messenger()
    await live(looking, '2026-05-18', '2026-05-26', platform)
    expect(platform.seen.map(shown)).toEqual(['2026-05-18 07:00 lead'])
    expect(platform.seen[0]?.answered.reply.lines[0]).toEqual({
      say: 'own-days.away',
      with: { people: { all: ['Otto Owner'] } },
    })
    await live(looking, '2026-05-26', '2026-05-29', platform)
    expect(platform.seen.map(shown)).toEqual(['2026-05-18 07:00 lead', '2026-05-27 07:00 owner'])
  })

  test('nobody is told in the evening: the next morning comes first', async () => {
    const looking = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const platform = messenger()
    await pass(looking.database, at('2026-05-18', '17:01'), platform)
    expect(platform.seen).toEqual([])
    await pass(looking.database, at('2026-05-19', '06:59'), platform)
    expect(platform.seen).toEqual([])
    await pass(looking.database, at('2026-05-19', '07:00'), platform)
    expect(platform.seen).toHaveLength(1)
  })

  test('unanswered, it comes once more, then the lead hears, then nobody', async () => {
    const looking = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const platform = messenger()
    await live(looking, '2026-05-18', '2026-05-30', platform)
    expect(platform.seen.map(shown)).toEqual([
      '2026-05-18 07:00 owner',
      '2026-05-20 07:00 owner',
      '2026-05-22 07:00 lead',
    ])
    const said = platform.seen.map(({ answered }) => answered.reply.lines.map(({ say }) => say))
    expect(said[1]).toContain('visits.again')
    expect(said[2]).toContain('visits.unanswered')
  })

  test('with the lead on leave another lead hears; with nobody else the lead does, when they are back', async () => {
    const away = { weekdays: null, daysOff: Array.from({ length: 8 }, (_, at) => addDays('2026-05-20', at)) }
    for (const [hasOther, told] of [
      [true, '2026-05-22 07:00 other'],
      [false, '2026-05-28 07:00 lead'],
    ] as const) {
      const looking = await aCrewOfLooks(await place.open(), ['2026-05-04'])
      await looking.store(async (store) => {
        const lead = await store.people.get(looking.ids.lead)
        if (lead === undefined) throw new Error('The lead is gone')
        await store.people.update(lead.id, { settings: { ...lead.settings, days: away } })
        if (hasOther) await aPerson(store, { key: 'other', name: 'Olga Other', role: 'lead' })
      })
      const platform = messenger()
      await live(looking, '2026-05-18', '2026-05-30', platform)
      expect(platform.seen.map(shown)).toEqual(['2026-05-18 07:00 owner', '2026-05-20 07:00 owner', told])
      expect(platform.seen.at(-1)?.answered.reply.lines.map(({ say }) => say)).toContain('visits.unanswered')
    }
  })

  test('an answer ends the reminders', async () => {
    const looking = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const platform = messenger()
    await live(looking, '2026-05-18', '2026-05-19', platform)
    await looking.store(async (store) => {
      const visits = await store.visits.get(looking.ids.visits[0] ?? 0)
      if (visits === undefined) throw new Error('no visits')
      const step = next(
        visits.plan,
        { kind: 'looked', look: 'first', on: '2026-05-18', by: 'owner' },
        crewDaysOf({ settings: CrewSettings.parse({}) } as never),
      )
      if (step.ok) await store.visits.update(visits.id, { plan: step.value }, 0)
    })
    await live(looking, '2026-05-19', '2026-05-28', platform)
    expect(platform.seen).toHaveLength(1)
  })

  test('after days of downtime one summary comes, and no flood', async () => {
    const treated = Array.from({ length: 6 }, (_, later) => addDays('2026-05-04', later))
    const looking = await aCrewOfLooks(await place.open(), treated, { workdays: everyDay })
    const platform = messenger()
    // Nothing runs from the 17th to the 25th, when the bot comes back at ten in the morning.
    await passes(
      looking.database,
      { fromMs: at('2026-05-25', '10:00'), toMs: at('2026-05-26', '06:00'), everyMs: 30 * MINUTE_MS },
      platform,
    )
    expect(platform.seen.map(shown)).toEqual(['2026-05-25 10:00 owner'])
    expect(platform.seen.map(titles)).toEqual(['visits.due'])
    expect(platform.seen[0]?.answered.reply.lines[0]).toEqual({ say: 'visits.summary' })
    expect(platform.seen[0]?.answered.reply.choices).toHaveLength(6)
  })

  test('two crews in two zones hear each in its own morning', async () => {
    const database = await place.open()
    await aCrewOfLooks(database, ['2026-05-04'])
    await aCrewOfLooks(database, ['2026-05-04'], { key: 'test:2', zone: 'America/Los_Angeles' })
    const platform = messenger()
    await passes(
      database,
      { fromMs: at('2026-05-18', '00:00'), toMs: at('2026-05-18', '23:00'), everyMs: 30 * MINUTE_MS },
      platform,
    )
    expect(platform.seen.map(({ atMs }) => (atMs - at('2026-05-18', '07:00')) / HOUR_MS)).toEqual([0, 2])
  })
})
