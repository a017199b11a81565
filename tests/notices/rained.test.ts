import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Limits } from '#src/label/limits.ts'
import { keepRain } from '#src/notices/keep-rain.ts'
import { lookAfterRain, rainFinding } from '#src/notices/rained.ts'
import { verifyChain } from '#src/record/chain.ts'
import { treatmentsFor } from '#src/record/totals.ts'
import { readSound } from '#src/records/read-record.ts'
import { findApplication } from '#src/visits/application.ts'
import { planVisits } from '#src/visits/plan-visits.ts'
import { openRoom } from '#tests/helpers/room.ts'
import { entry } from '#tests/label/build.ts'
import { draft, product } from '#tests/record/build.ts'
import { inCrew, logged, moment } from './logged.ts'

const label = (name: string, hours?: number) =>
  entry({ name, limits: (hours === undefined ? {} : { rainFree: { hours } }) as Limits })

describe('rain after a job', () => {
  test.each<[string, string, (number | undefined)[], string]>([
    ['before the rain-free time is over', '3.9', [4], 'inside'],
    ['at its very end', '4', [4], 'outside'],
    ['after it', '6', [4], 'outside'],
    ['at once', '0', [4], 'inside'],
    ['inside the longer of two', '5', [4, 6], 'inside'],
    ['on a label without one', '1', [undefined], 'unsaid'],
    ['on labels of which one has none', '1', [undefined, 2], 'inside'],
  ])('%s', (_, hours, times, wanted) => {
    expect(
      rainFinding(
        hours,
        times.map((one, n) => label(`Invented ${n}`, one)),
      ).kind,
    ).toBe(wanted)
  })

  test('later rain is never worse than earlier rain', () => {
    const tenths = fc.integer({ min: 0, max: 2400 }).map((n) => String(n / 10))
    fc.assert(
      fc.property(tenths, tenths, fc.integer({ min: 1, max: 240 }), (a, b, free) => {
        const isInside = (hours: string) => rainFinding(hours, [label('Invented', free)]).kind === 'inside'
        if (Number(a) <= Number(b) && isInside(b)) expect(isInside(a)).toBe(true)
      }),
    )
  })
})

test.each([
  // half of 10 days, by hand
  ['2026-05-01', '2026-05-11', '2026-05-02', '2026-05-06'],
  ['2026-05-01', '2026-05-11', '2026-05-08', '2026-05-09'],
  ['2026-05-01', '2026-05-11', '2026-05-10', null],
  ['2026-05-01', '2026-05-03', '2026-05-01', '2026-05-02'],
])('a job of %s with a look on %s, told on %s: look on %s', (treatedOn, visitOn, today, wanted) => {
  expect(lookAfterRain({ treatedOn, visitOn, today })).toBe(wanted)
})

const sprayed = { products: [product({ name: 'Bellstrake 3 L', form: 'liquid' })] }

describe('rain in the room', () => {
  test('inside the rain-free time: kept with the record, the lead told, no second spray', async () => {
    const room = await openRoom()
    await logged(room, sprayed)
    const bex = room.as('bex')
    await bex.type('+ 3 hours')
    const asked = await bex.ask('/rained')
    expect([asked.outcome, asked.choices.length]).toEqual(['question', 8])
    const told = await bex.ask('> 2')
    expect([told.outcome, told.title]).toEqual([
      'heads-up',
      'Rain 2 hours after the end: Plimmet Street House, R1',
    ])
    expect(told.text).toContain('Inside the rain-free time: the label of Bellstrake 3 L wants 6 hours.')
    expect(told.text).toContain('Do not spray again')
    expect(told.facts.rain_free?.value).toBe('inside')
    const leads = (await room.type('+ 1 minute')).filter(({ title }) =>
      title.startsWith('Rain 2 hours after R1'),
    )
    expect(leads.length).toBeGreaterThan(0)
    await inCrew(room, async ({ store }) => {
      expect((await readSound(store, 1))?.current.record.rainAfter).toEqual({ hours: '2' })
      expect(verifyChain(await store.records.pageLinks(0, 100))).toEqual([])
    })
  })

  test('a time of day counts from the end of the job, and is never rounded up', async () => {
    const room = await openRoom()
    await logged(room, sprayed)
    await room.type('+ 8 hours')
    const told = await room.ask('/rained record:R1 at:"3:29 pm"')
    expect([told.facts.rain_after?.value, told.facts.rain_free?.value]).toEqual([5.9, 'inside'])
    expect((await room.ask('/rained record:1 at:"3:30 pm"')).facts.rain_free?.value).toBe('outside')
  })

  test.each([
    ['/rained record:R1 at:"9:10 am"', 'before the job was over'],
    ['/rained record:R1 hours:9', 'has not come yet'],
    ['/rained record:R1 at:"tomorrow 8 am"', 'has not come yet'],
    ['/rained record:R7 hours:1', 'There is no record'],
    ['/rained record:R1 hours:-2', ''],
    ['/rained site:"Ospelwick School" hours:1', 'No job of the last 10 days'],
  ])('%s is refused', async (line, why) => {
    const room = await openRoom()
    await logged(room, sprayed)
    const refused = await room.ask(line)
    expect([refused.outcome, refused.text.includes(why)]).toEqual(['refusal', true])
  })

  test('of several jobs it asks which', async () => {
    const room = await openRoom()
    await logged(room, sprayed)
    await logged(room, { ...sprayed, endedAt: moment('2026-05-04 09:40') })
    const asked = await room.ask('/rained hours:"0.1 h"')
    expect(asked.choices.map(({ label: one }) => one)).toEqual([
      'R2 Plimmet Street House',
      'R1 Plimmet Street House',
    ])
    expect((await room.ask('> 2')).facts.record?.value).toBe('R1')
  })

  test('later rain than is known changes nothing; earlier rain does', async () => {
    const room = await openRoom()
    await logged(room, sprayed)
    await room.type('+ 1 day')
    const versions = () => inCrew(room, async ({ store }) => (await readSound(store, 1))?.links.length)
    await room.ask('/rained record:R1 hours:4')
    await room.ask('/rained record:R1 hours:9')
    expect(await versions()).toBe(2)
    await room.ask('/rained record:R1 hours:1')
    expect(await versions()).toBe(3)
  })

  test('neither interval nor yearly total begins anew', async () => {
    const room = await openRoom()
    await logged(room, sprayed)
    await inCrew(room, async (tools) => {
      const counted = async () => {
        const found = await readSound(tools.store, 1)
        if (found === undefined) throw new Error('The record is gone')
        const book = await tools.store.labels.findByName('Bellstrake 3 L')
        return {
          found,
          counts: treatmentsFor(draft(), [found.current.record], () => book?.live?.body),
        }
      }
      const before = await counted()
      expect(await keepRain(before.found, '0.5', { ...tools, nowMs: tools.nowMs + 3_600_000 })).toBe(true)
      const after = await counted()
      expect(after.counts).toEqual(before.counts)
      expect(after.found.row).toEqual(before.found.row)
    })
  })

  test('the next look comes earlier, on a workday', async () => {
    const room = await openRoom()
    await logged(room, { ...sprayed, writtenAt: moment('2026-05-04 09:50') })
    await inCrew(room, async (tools) => {
      const application = await findApplication(1, tools)
      if (typeof application === 'string') throw new Error(application)
      const plan = planVisits(application, tools)
      await tools.store.visits.create(
        {
          recordNumber: 1,
          walkId: null,
          siteId: application.row.siteId,
          areaId: null,
          ownerId: tools.person.id,
          plan,
          untreated: 'open',
        },
        tools.nowMs,
      )
    })
    const told = await room.ask('/rained record:R1 hours:0.2')
    const moved = told.facts.due?.value
    await inCrew(room, async ({ store }) => {
      const plan = (await store.visits.ofRecord(1))?.plan
      expect(plan?.looks[0]?.visitOn).toBe(moved)
      expect(told.text).toContain('Next look: ')
    })
  })
})
