import { describe, expect, test } from 'vitest'
import { followRecord } from '#src/notices/follow-record.ts'
import { sendDue } from '#src/reminders/send-due.ts'
import { keepRecord } from '#tests/helpers/keep-record.ts'
import { openRoom } from '#tests/helpers/room.ts'
import { aCrewStore, aPerson } from '#tests/helpers/rows.ts'
import { product } from '#tests/record/build.ts'
import { change } from './change.ts'
import { inCrew, logged, moment, NOW_MS, toolsOf } from './logged.ts'

/** Titles of what arrived, without the summaries of the week. */
const titles = (lines: readonly { readonly title: string }[]) =>
  lines.slice(1).flatMap(({ title }) => (/ to \w+, /.test(title) ? [] : [title]))

describe('messages after a job', () => {
  test('say at once what holds, then each thing when it is over, in working hours', async () => {
    const room = await openRoom()
    await logged(room)
    const [, first] = await room.type('+ 1 minute')
    expect(first?.title).toBe('Plimmet Street House: what holds now')
    expect(first?.text).toBe(
      [
        'Keep people and pets off until it has dried.',
        'No water until Tue, May 5, 2026, 9:30 AM.',
        'No mowing until Wed, May 6, 2026, 9:30 AM.',
        'Signs stay up until Wed, May 6, 2026, 9:30 AM.',
        'No seed before Mon, Jun 1, 2026, 9:30 AM.',
        'The label wins. Follow local codes. Licensed people decide.',
      ].join('\n'),
    )
    expect(first?.safety.length).toBeGreaterThan(0)
    expect(titles(await room.type('+ 1 day'))).toEqual(['Plimmet Street House: water is allowed again'])
    expect(titles(await room.type('+ 1 day'))).toEqual([
      'Plimmet Street House: mowing is allowed again',
      'Plimmet Street House: the signs may come down',
    ])
    expect(titles(await room.type('+ 30 days'))).toEqual(['Plimmet Street House: seed is allowed again'])
    expect(room.errors).toEqual([])
  })

  test('a task is marked by whoever did it, and is then off the list', async () => {
    const room = await openRoom()
    await logged(room)
    await room.type('+ 2 days')
    const bex = room.as('bex')
    expect((await bex.ask('/notices')).text).toContain('overdue. Signs stay up')
    const done = await room.ask('> 1')
    expect([done.outcome, done.title]).toEqual(['answer', 'Plimmet Street House: signs are down'])
    expect(done.text).toContain('Odalys Trennquist, Wed, May 6')
    expect((await bex.ask('/notices')).text).not.toContain('Signs')
  })

  test('a person named for mowing hears about mowing, and nobody else', async () => {
    const room = await openRoom()
    await room.ask('/setup notices mowing:"Hob Stowbrimmer"')
    await logged(room)
    const first = (await room.type('+ 1 minute')).slice(1)
    expect(first.map(({ text }) => /mowing/i.test(text))).toEqual([false, true])
    await inCrew(room, async ({ store }) => {
      const hob = (await store.people.list()).find(({ name }) => name === 'Hob Stowbrimmer')
      const lines = await store.turns.list({ personId: hob?.id ?? 0, limit: 10 })
      expect(lines.map(({ command }) => command)).toEqual(['notices'])
    })
  })

  test('what is over at night is told in the morning, and water is called for the evening before', async () => {
    const room = await openRoom()
    // 24 hours after 2:10 in the morning, by the label of the invented Fennowick 4 EC
    await logged(room, {
      startedAt: moment('2026-05-04 01:30'),
      endedAt: moment('2026-05-04 02:10'),
      products: [product({ name: 'Fennowick 4 EC' }), product({ name: 'Tarnbrask 75 WDG' })],
    })
    await room.type('+ 1 minute')
    expect(titles(await room.type('+ 9 hours'))).toEqual([
      'Plimmet Street House: water in by Tue, May 5, 2026, 2:10 AM',
    ])
    expect(titles(await room.type('+ 35 hours'))).toEqual([])
    expect(titles(await room.type('+ 1 hour'))).toEqual([
      'Plimmet Street House: mowing is allowed again',
      'Plimmet Street House: the signs may come down',
    ])
  })

  test('labels that disagree on water send the crew to the lead', async () => {
    const room = await openRoom()
    await logged(room, {
      products: [product({ name: 'Fennowick 4 EC' }), product({ name: 'Bellstrake 3 L' })],
    })
    const [, first] = await room.type('+ 1 minute')
    expect([first?.outcome, first?.text.includes('The labels disagree')]).toEqual(['heads-up', true])
  })
})

describe('a record that changes', () => {
  test('takes back what was planned when it is voided, and says so to who was told', async () => {
    const room = await openRoom()
    const number = await logged(room)
    await room.type('+ 1 minute')
    await inCrew(room, async (tools) => {
      await change(tools, number, { voids: true })
      await followRecord(number, tools)
    })
    expect(titles(await room.type('+ 60 days'))).toEqual([
      `Plimmet Street House: R${number} is void, its notices no longer hold`,
    ])
    expect((await room.ask('/notices')).title).toBe('Nothing has to wait')
  })

  test('tells nobody anything when nothing was told yet', async () => {
    const room = await openRoom()
    const number = await logged(room)
    await inCrew(room, async (tools) => {
      await change(tools, number, { voids: true })
      await followRecord(number, tools)
    })
    expect(await room.type('+ 60 days')).toHaveLength(1)
  })

  test('tells what is new after an amendment, and nothing twice', async () => {
    const room = await openRoom()
    const number = await logged(room)
    await room.type('+ 1 minute')
    await inCrew(room, async (tools) => {
      await change(tools, number, { changes: { endedAt: moment('2026-05-04 09:45') } })
      await followRecord(number, tools)
      await followRecord(number, tools)
    })
    const [, changed] = await room.type('+ 1 minute')
    expect(changed?.title).toBe('Plimmet Street House: changed. What holds now')
    expect(changed?.text).not.toContain('until it has dried')
    expect(changed?.text).toContain('No water until Tue, May 5, 2026, 9:45 AM.')
    expect(titles(await room.type('+ 60 days'))).toEqual([
      'Plimmet Street House: water is allowed again',
      'Plimmet Street House: mowing is allowed again',
      'Plimmet Street House: the signs may come down',
      'Plimmet Street House: seed is allowed again',
    ])
  })

  test('an amendment that changes no time sends nothing new', async () => {
    const room = await openRoom()
    const number = await logged(room)
    await room.type('+ 1 minute')
    await inCrew(room, async (tools) => {
      await change(tools, number, { changes: { county: 'Other Demo County' } })
      await followRecord(number, tools)
    })
    expect(await room.type('+ 1 minute')).toHaveLength(1)
    expect(titles(await room.type('+ 60 days'))).toHaveLength(4)
  })
})

test('planning again, as after a restart, sends nothing twice', async () => {
  const room = await openRoom()
  const number = await logged(room)
  const again = () => inCrew(room, (tools) => followRecord(number, tools))
  await again()
  expect(await room.type('+ 1 minute')).toHaveLength(2)
  await again()
  expect(await room.type('+ 1 minute')).toHaveLength(1)
  await room.type('+ 2 days')
  await again()
  expect(titles(await room.type('+ 1 hour'))).toEqual([])
})

test('a deadline that went by while nothing could be sent is called late', async () => {
  const room = await openRoom()
  await logged(room, { products: [product({ name: 'Fennowick 4 EC' })] })
  const sent: (readonly [string, string])[] = []
  await sendDue({
    database: room.bot.database,
    registry: room.bot.registry,
    nowMs: () => NOW_MS + 3 * 86_400_000,
    chooseSafety: room.bot.chooseSafety,
    reportError: room.bot.reportError,
    deliver: async (_address, { reply }) => {
      sent.push([reply.outcome, reply.title.say])
    },
  })
  expect(sent).toContainEqual(['heads-up', 'notices.water-in-late'])
})

test('another crew in the same database gets nothing', async () => {
  const room = await openRoom()
  await logged(room)
  await inCrew(room, async (_tools, db) => {
    const { store } = await aCrewStore(db, { key: 'test:other' })
    const person = await aPerson(store)
    const tools = await toolsOf(db, 'test:other', NOW_MS)
    expect(await keepRecord(store, { personId: person.id })).toBe(1)
    await change(tools, 1, { voids: true })
    await followRecord(1, tools)
  })
  expect(await room.type('+ 1 minute')).toHaveLength(2)
})
