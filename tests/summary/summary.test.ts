import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dayIn } from '#src/desk/clock.ts'
import { weekdayOf } from '#src/recheck/workdays.ts'
import { readHead, verifyChain } from '#src/record/chain.ts'
import { sendDue } from '#src/reminders/send-due.ts'
import { nextMonday } from '#src/summary/plan.ts'
import { totalsOf } from '#src/summary/week.ts'
import { openRoom, type TestRoom } from '#tests/helpers/room.ts'
import { aCrewStore, aPerson } from '#tests/helpers/rows.ts'
import { inCrew, logged, moment, NOW_MS } from '#tests/notices/logged.ts'
import { product } from '#tests/record/build.ts'

const DAY_MS = 86_400_000
const used = (value: string) => ({
  treatedArea: { value: '5000', unit: 'ft2' } as const,
  products: [product({ name: 'Bellstrake 3 L', form: 'liquid', amount: { value, unit: 'fl oz' } })],
})

describe('a summary in the room', () => {
  test('says what was done, what is open, and the newest hash', async () => {
    const room = await openRoom()
    await logged(room, used('3'))
    await logged(room, { ...used('4.5'), endedAt: moment('2026-05-04 09:40') })
    await room.ask('/stock low product:"Bellstrake 3 L" amount:"1 gal"')
    await inCrew(room, async ({ store, person }) => {
      const row = await store.records.find(2)
      if (row !== undefined) await store.records.restate(row.id, { ...row, complete: false, late: true }, [])
      await store.drafts.create({ personId: person.id, mixId: null, draft: {} }, NOW_MS)
    })
    const said = await room.ask('/summary')
    const lines = said.text.split('\n')
    expect(lines.slice(0, -1)).toEqual([
      '2 jobs, 10,000 ft² treated',
      '7.5 fl oz Bellstrake 3 L',
      'One record is incomplete: R2.',
      'One record was late: R2.',
      'One log is not finished: Odalys Trennquist.',
      'Bellstrake 3 L: the records used 7.5 fl oz more than came in. Count it.',
      expect.stringMatching(/^Newest record hash: 2-[0-9a-f]{64}$/),
      'Keep this message: with that hash it can be shown later that no record is gone.',
    ])
    expect(said.outcome).toBe('heads-up')
    expect(said.facts).toMatchObject({ jobs: { value: 2 }, area: { value: 10000, unit: 'ft2' } })
    const against = readHead(String(said.facts.head?.value))
    if (against === null) throw new Error('The hash cannot be read back')
    await inCrew(room, async ({ store }) => {
      const links = await store.records.pageLinks(0, 100)
      expect(verifyChain(links, { against })).toEqual([])
      expect(verifyChain(links.slice(0, 1), { against }).map(({ kind }) => kind)).toEqual(['cut-tail'])
    })
  })

  test('is for leads', async () => {
    const room = await openRoom({ as: 'bex' })
    expect((await room.ask('/summary')).outcome).toBe('refusal')
  })

  test('comes on Monday to each lead, once, and again the week after', async () => {
    const room = await openRoom()
    await logged(room, used('3'))
    const titles = async (line: string) =>
      (await room.type(line)).map(({ title }) => title).filter((title) => / to /.test(title))
    expect(await titles('+ 6 days')).toEqual([])
    // Two leads in the demo crew
    expect(await titles('+ 1 day')).toEqual(Array(2).fill('Mon, May 4, 2026 to Sun, May 10, 2026'))
    expect(await titles('+ 1 day')).toEqual([])
    await inCrew(room, ({ store, person }) =>
      store.drafts.create({ personId: person.id, mixId: null, draft: {} }, NOW_MS),
    )
    expect(await titles('+ 7 days')).toEqual(Array(2).fill('Mon, May 11, 2026 to Sun, May 17, 2026'))
  })

  test('a week in which nothing happened and nothing is open sends nothing, and the next one is planned', async () => {
    const room = await openRoom()
    await room.ask('/summary')
    expect(await room.type('+ 14 days')).toHaveLength(1)
    await inCrew(room, ({ store, person }) =>
      store.drafts.create({ personId: person.id, mixId: null, draft: {} }, NOW_MS),
    )
    expect((await room.type('+ 7 days')).length).toBe(3)
  })

  test('is off when a lead says so, and comes at another hour when told', async () => {
    const room = await openRoom()
    await logged(room, used('3'))
    const off = await room.ask('/setup notices summary:off')
    expect(off.text).toContain('No summary on Mondays')
    const weekly = (lines: Awaited<ReturnType<TestRoom['type']>>) =>
      lines.filter(({ title }) => / to /.test(title))
    expect(weekly(await room.type('+ 7 days'))).toEqual([])
    expect((await room.ask('/setup notices summary:"6:15 pm"')).text).toContain('at 18:15')
    expect(weekly(await room.type('+ 8 hours'))).toEqual([])
    expect(weekly(await room.type('+ 1 hour'))).toHaveLength(2)
    expect((await room.ask('/setup notices summary:noonish')).outcome).toBe('refusal')
  })
})

test('after weeks in which nothing could be sent there is one for all of them', async () => {
  const room = await openRoom()
  await logged(room, used('3'))
  const sent: string[] = []
  const send = (nowMs: number) =>
    sendDue({
      database: room.bot.database,
      registry: room.bot.registry,
      nowMs: () => nowMs,
      chooseSafety: room.bot.chooseSafety,
      reportError: room.bot.reportError,
      deliver: async (_address, { reply }) => {
        if (reply.title.say === 'summary.title') sent.push(JSON.stringify(reply.title.with))
      },
    })
  await send(NOW_MS + 24 * DAY_MS)
  await send(NOW_MS + 24 * DAY_MS + 60_000)
  const all = JSON.stringify({ from: { day: '2026-05-04' }, to: { day: '2026-05-27' } })
  expect(sent).toEqual([all, all])
})

test('another crew’s records, drafts and stock are in no summary', async () => {
  const room = await openRoom()
  await inCrew(room, async (_tools, db) => {
    const { store } = await aCrewStore(db, { key: 'test:other' })
    const { id: personId } = await aPerson(store)
    await store.drafts.create({ personId, mixId: null, draft: {} }, NOW_MS)
    await store.stock.use(
      { number: 1, version: 1, personId },
      [{ product: 'Bellstrake 3 L', amount: { value: '9', unit: 'gal' }, atMs: NOW_MS }],
      NOW_MS,
    )
  })
  const { facts } = await room.ask('/summary')
  expect([facts.drafts?.value, facts.low?.value, facts.jobs?.value]).toEqual([0, 0, 0])
})

test('the next Monday is a Monday at that hour, ahead, within a week, wherever the crew is', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: Date.parse('2024-01-01'), max: Date.parse('2031-01-01') }),
      fc.constantFrom('America/New_York', 'America/Los_Angeles', 'Pacific/Honolulu', 'America/St_Johns'),
      fc.constantFrom('07:00', '00:00', '18:15'),
      (nowMs, zone, time) => {
        const { monday, dueAtMs } = nextMonday(nowMs, zone, time)
        expect(weekdayOf(monday)).toBe(1)
        expect(dayIn(zone, dueAtMs)).toBe(monday)
        expect(dueAtMs).toBeGreaterThan(nowMs)
        // One hour more where the clocks go back in between
        expect(dueAtMs - nowMs).toBeLessThanOrEqual(7 * DAY_MS + 3_600_000)
      },
    ),
  )
})

test('a product’s units are added exactly, its weights and volumes apart', () => {
  const amounts = [
    { product: 'B', amount: { value: '0.5', unit: 'gal' } },
    { product: 'A', amount: { value: '1', unit: 'oz wt' } },
    { product: 'B', amount: { value: '64', unit: 'fl oz' } },
    { product: 'A', amount: { value: '2', unit: 'fl oz' } },
  ] as const
  expect(totalsOf(amounts)).toEqual([
    { product: 'A', amount: { value: '1', unit: 'oz wt' } },
    { product: 'A', amount: { value: '2', unit: 'fl oz' } },
    { product: 'B', amount: { value: '1', unit: 'gal' } },
  ])
})
