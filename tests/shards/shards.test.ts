import { setTimeout as wait } from 'node:timers/promises'
import { describe, expect, test } from 'vitest'
import { randomFrom } from '#src/season/random.ts'
import { readOnly } from '#src/store/transaction.ts'
import { postgresPlace } from '#tests/helpers/engines.ts'
import { postgresUrl } from '#tests/helpers/postgres-url.ts'
import { numberIn, shownText } from '#tests/ordeal/people.ts'
import { type Fleet, SHARDS, startFleet } from './processes.ts'

const url = postgresUrl()
const ALL = Array.from({ length: SHARDS }, (_, shard) => shard)
/** Codes of the platform: another process was first; the person was given up before. */
const ANSWERED = 40060
const TOO_LATE = 10062
/** Time enough on a machine that does other work as well. */
const PATIENCE_MS = 30_000

/** Somebody in that server is answered, if need be when asked again: the platform gives up after three seconds. */
async function answers(fleet: Fleet, shard: number): Promise<void> {
  const until = performance.now() + PATIENCE_MS
  for (;;) {
    const response = await fleet
      .ask(shard)
      .firstResponse(4000)
      .catch(() => null)
    if (response !== null) return
    if (performance.now() > until) throw new Error(`Nobody answers on shard ${shard}`)
  }
}

/** What people were told is kept, once, and nothing is kept twice. */
async function expectSound(fleet: Fleet): Promise<void> {
  const { turns, events } = await readOnly(fleet.store, async (db) => ({
    turns: await db.selectFrom('turns').select(['id', 'crewId', 'requestId', 'number', 'outcome']).execute(),
    events: await db.selectFrom('sprayerEvents').selectAll().where('kind', '=', 'poured').execute(),
  }))
  const kept = new Map(turns.map((turn) => [turn.requestId, turn]))
  expect(kept.size).toBe(turns.length)
  expect(turns.filter(({ outcome }) => outcome === '')).toEqual([])
  const wrong: string[] = []
  const poured = new Map<string, Set<number>>()
  for (const { fired, poured: message } of fleet.asked) {
    const number = numberIn(shownText(fired) ?? '')
    const turn = kept.get(fired.id)
    // The second of two presses is told the number that the first one got.
    const told = message === null ? turn?.number : number
    if (number !== null && number !== told) wrong.push(`told ${number}, kept ${turn?.number}`)
    if (number !== null && !turns.some((one) => one.number === number)) wrong.push(`answer ${number} is lost`)
    for (const { error } of fired.refused)
      if (![ANSWERED, TOO_LATE].includes(error.code)) wrong.push(`a response was refused with ${error.code}`)
    const event = events.find(({ turnId }) => turnId !== null && turnId === turn?.id)
    if (message !== null && event !== undefined)
      poured.set(message, (poured.get(message) ?? new Set()).add(event.id))
  }
  for (const [message, ids] of poured) if (ids.size > 1) wrong.push(`${message} is poured ${ids.size} times`)
  if (events.length !== poured.size) wrong.push(`${events.length} pourings of ${poured.size} messages`)
  expect(wrong).toEqual([])
  const reminders = [...(await fleet.reminders())]
  expect(reminders.filter(([, { seen }]) => seen === 0)).toEqual([])
  expect(reminders.filter(([, { seen, marked }]) => seen - marked > 1)).toEqual([])
  fleet.platform.assertClean()
}

describe.skipIf(url === null)('three processes with two shards each, on one PostgreSQL', () => {
  const place = postgresPlace()

  test('each serves its own servers; identifies of all of them keep the platform’s pace', async () => {
    const fleet = await startFleet(await place.address(), { identifyIntervalMs: 600 })
    const { platform } = fleet
    // One identify at a time over all processes: nobody was turned away for coming too early.
    expect(platform.counts).toMatchObject({ identifies: SHARDS, invalidSessions: 0 })
    const shards = [...platform.gateway.sessions.values()].map(({ shard }) => shard)
    expect(shards.map(([id]) => id).sort()).toEqual(ALL)
    expect(new Set(shards.map(([, count]) => count))).toEqual(new Set([SHARDS]))
    const fired = ALL.map((shard) => fleet.ask(shard))
    expect(fired.map(({ delivered }) => delivered)).toEqual(ALL.map(() => 1))
    for (const shard of ALL) await answers(fleet, shard)
    // Commands are one for all servers: whoever starts first registers them, and the others find them there.
    expect(platform.requestsTo({ method: 'PUT', route: /commands$/ }).length).toBeLessThanOrEqual(3)
    await expectSound(fleet)
  }, 120_000)

  test('killed again and again, nothing is lost and nothing doubled, and the others work on', async () => {
    const fleet = await startFleet(await place.address())
    const random = randomFrom(11)
    for (const shard of ALL) await answers(fleet, shard)
    for (let kill = 0; kill < 9; kill += 1) {
      const part = kill % 3
      const busy = async () => {
        for (const shard of ALL) {
          fleet.ask(shard)
          if (random.chance(0.7)) fleet.pour(shard)
          if (random.chance(0.5)) await fleet.remind(shard)
        }
      }
      await busy()
      await wait(random.next() * 150)
      await fleet.processes[part]?.kill()
      await busy()
      // Servers of the other processes are answered while this one is away.
      const other = (2 * part + 2 + Math.floor(random.next() * 4)) % SHARDS
      await answers(fleet, other)
      if (kill % 3 !== 1) await fleet.processes[part]?.ready()
    }
    for (const one of fleet.processes) await one.ready()
    for (const shard of ALL) await answers(fleet, shard)
    // Past whatever lease a dead process has left.
    for (const one of fleet.processes) await one.order({ clockMs: 61_000 })
    await fleet.settled(60_000)
    expect((await fleet.reminders()).size).toBeGreaterThan(20)
    await expectSound(fleet)
  }, 240_000)

  test('updated one after another, every request is answered once and every reminder comes once', async () => {
    const fleet = await startFleet(await place.address())
    for (const shard of ALL) await answers(fleet, shard)
    const before = fleet.asked.length
    let going = true
    const work = (async () => {
      while (going) {
        for (const shard of ALL) {
          fleet.ask(shard)
          fleet.pour(shard)
          await fleet.remind(shard)
        }
        await wait(2500)
      }
    })()
    for (const process of fleet.processes) {
      const endNext = await process.startAnother()
      expect(await process.end()).toBe(0)
      await process.ready()
      await endNext('SIGTERM')
    }
    going = false
    await work
    await fleet.settled(60_000)
    const during = fleet.asked.slice(before)
    await Promise.all(during.map(({ fired }) => fired.firstResponse(4000).catch(() => null)))
    // An answer that a busy machine has brought too late is an answer still, though the platform did not take it.
    const unanswered = during.filter(
      ({ fired }) =>
        fired.response === undefined && !fired.refused.some(({ error }) => error.code === TOO_LATE),
    )
    expect(unanswered).toEqual([])
    const told = fleet.asked.map(({ fired }) => shownText(fired) ?? '')
    expect(told.filter((text) => text.includes('nothing was written'))).toEqual([])
    const reminders = [...(await fleet.reminders()).values()]
    expect(reminders.length).toBeGreaterThan(10)
    expect(reminders.filter(({ seen, marked }) => seen !== 1 || marked !== 0)).toEqual([])
    await expectSound(fleet)
  }, 400_000)
})
