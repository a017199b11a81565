import { expect, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import type { Address } from '#src/reminders/deliver.ts'
import { sendDue } from '#src/reminders/send-due.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { claimDue, markSent } from '#src/store/deliveries.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrew, aPerson } from '#tests/helpers/rows.ts'
import { choose } from '#tests/helpers/test-desk.ts'

const LEASE_MS = 20_000

/** Plans a message for each of these moments, to one person of one crew. */
async function plan(database: Database, dueAtMs: readonly number[], nonce = 'n', key = 'test:1') {
  await write(database, async (db) => {
    const store = crewStore(db, (await aCrew(db, { key })).id)
    const { id: personId } = await aPerson(store)
    for (const [at, due] of dueAtMs.entries())
      await store.deliveries.plan(
        {
          personId,
          command: 'pick',
          reply: reply('answer', asTyped(`message ${at}`)),
          nonce: `${nonce}-${at}`,
          dueAtMs: due,
        },
        NOON_MS,
      )
  })
}

const claim = (database: Database, nowMs: number, limit = 50) =>
  write(database, (db) => claimDue(db, database.words, { nowMs, leaseMs: LEASE_MS, limit }))

function sending(database: Database, nowMs: number) {
  const seen: { readonly words: unknown; readonly nonce: string; readonly answered: Answered }[] = []
  const errors: unknown[] = []
  return {
    seen,
    errors,
    parts: {
      database,
      nowMs: () => nowMs,
      chooseSafety: choose,
      reportError: (error: unknown) => errors.push(error),
      deliver: async (_address: unknown, answered: Answered, nonce: string) => {
        seen.push({ words: answered.reply.title.with?.words, nonce, answered })
      },
    },
  }
}

eachEngine('messages that leave unasked', (place) => {
  test('only what is due is claimed, the oldest first, and no more than is wanted', async () => {
    const database = await place.open()
    await plan(database, [NOON_MS, NOON_MS - 2, NOON_MS - 1, NOON_MS + 1])
    const order = async (limit?: number) => (await claim(database, NOON_MS, limit)).map(({ nonce }) => nonce)
    expect(await order(2)).toEqual(['n-1', 'n-2'])
    expect(await order()).toEqual(['n-0'])
    expect(await order()).toEqual([])
  })

  test('a lease that has run out is claimed again, and marked: it may have been seen', async () => {
    const database = await place.open()
    await plan(database, [NOON_MS])
    expect(await claim(database, NOON_MS)).toMatchObject([{ nonce: 'n-0', retried: false }])
    expect(await claim(database, NOON_MS + LEASE_MS - 1)).toEqual([])
    expect(await claim(database, NOON_MS + LEASE_MS)).toMatchObject([{ nonce: 'n-0', retried: true }])
  })

  test('a claim of a clock that ran a year ahead does not hold a message back once the clock is put right', async () => {
    const database = await place.open()
    await plan(database, [NOON_MS])
    expect(await claim(database, NOON_MS + 365 * 86_400_000)).toHaveLength(1)
    expect(await claim(database, NOON_MS + 1)).toMatchObject([{ nonce: 'n-0', retried: true }])
    expect(await claim(database, NOON_MS + 2)).toEqual([])
  })

  test('what was sent is never claimed again', async () => {
    const database = await place.open()
    await plan(database, [NOON_MS])
    const [one] = await claim(database, NOON_MS)
    await write(database, (db) => markSent(db, one?.id ?? 0, NOON_MS))
    expect(await claim(database, NOON_MS + 10 * LEASE_MS)).toEqual([])
  })

  test('planning the same message again changes nothing, and another crew may use the same nonce', async () => {
    const database = await place.open()
    await plan(database, [NOON_MS])
    await plan(database, [NOON_MS + 5])
    await plan(database, [NOON_MS], 'n', 'test:2')
    expect((await claim(database, NOON_MS + 10)).map(({ dueAtMs }) => dueAtMs)).toEqual([NOON_MS, NOON_MS])
  })

  test('claimers at the same moment never get the same message, and between them get all', async () => {
    const address = await place.address()
    const databases = [await place.open(address), await place.open(address)]
    const [first] = databases
    if (first === undefined) throw new Error('no store')
    await plan(
      first,
      Array.from({ length: 40 }, (_, at) => NOON_MS - at),
    )
    const claims = await Promise.all(
      Array.from({ length: 12 }, (_, at) => claim(databases[at % 2] ?? first, NOON_MS, 5)),
    )
    const rest = await claim(first, NOON_MS)
    const ids = [...claims.flat(), ...rest].map(({ id }) => id)
    expect(new Set(ids).size).toBe(ids.length)
    expect(ids).toHaveLength(40)
  })

  test('a message that is sent becomes a numbered answer with a safety line', async () => {
    const database = await place.open()
    await plan(database, [NOON_MS])
    const { parts, seen } = sending(database, NOON_MS)
    expect(await sendDue(parts)).toBe(1)
    expect(seen).toMatchObject([{ words: 'message 0', nonce: 'n-0', answered: { number: 1 } }])
    expect(seen[0]?.answered.reply.safety.chosen?.length).toBeGreaterThan(0)
  })

  test('one that fails does not hold up the others, and comes again as the same turn', async () => {
    const database = await place.open()
    await plan(database, [NOON_MS, NOON_MS])
    const { parts, seen, errors } = sending(database, NOON_MS)
    let failures = 1
    const deliver: typeof parts.deliver = async (address, answered, nonce) => {
      if (nonce === 'n-0' && failures-- > 0) throw new Error('the messenger is away')
      await parts.deliver(address, answered, nonce)
    }
    expect(await sendDue({ ...parts, deliver })).toBe(1)
    expect(errors).toHaveLength(1)
    expect(await sendDue({ ...parts, deliver, nowMs: () => NOON_MS + LEASE_MS })).toBe(1)
    expect(seen.map(({ words, answered }) => [words, answered.number])).toEqual([
      ['message 1', 2],
      ['message 0', 1],
    ])
  })

  test('a process that dies while it sends keeps only a few messages waiting', async () => {
    const database = await place.open()
    await plan(database, Array(20).fill(NOON_MS))
    const { parts, seen } = sending(database, NOON_MS)
    await sendDue({ ...parts, stopped: () => seen.length >= 2 })
    expect(seen).toHaveLength(2)
    expect((await claim(database, NOON_MS + 1)).length).toBeGreaterThanOrEqual(15)
  })

  test('a process that leaves in order lets go of all that it has not begun', async () => {
    const database = await place.open()
    await plan(database, Array(20).fill(NOON_MS))
    const { parts, seen } = sending(database, NOON_MS)
    await sendDue({ ...parts, pace: async () => {}, stopped: () => seen.length >= 2 })
    expect(await claim(database, NOON_MS + 1)).toHaveLength(18)
  })

  test('at a pace nobody waits for another person, and each hears in order', async () => {
    const database = await place.open()
    await plan(database, Array(8).fill(NOON_MS), 'a', 'test:1')
    await plan(database, Array(8).fill(NOON_MS), 'b', 'test:2')
    const { parts, seen } = sending(database, NOON_MS)
    let letLoose = () => {}
    const held = new Promise<void>((done) => {
      letLoose = done
    })
    const deliver: typeof parts.deliver = async (address, answered, nonce) => {
      if ((address as Address).crewKey === 'test:1') await held
      await parts.deliver(address, answered, nonce)
      if (seen.length === 8) letLoose()
    }
    let paced = 0
    const pace = async () => {
      paced += 1
    }
    expect(await sendDue({ ...parts, deliver, pace })).toBe(16)
    expect(paced).toBe(16)
    const order = (letter: string) => seen.map(({ nonce }) => nonce).filter((one) => one.startsWith(letter))
    expect(seen.slice(0, 8).every(({ nonce }) => nonce.startsWith('b'))).toBe(true)
    for (const letter of ['a', 'b']) expect(order(letter)).toEqual(order(letter).toSorted())
  })

  test('a look that takes long holds what it has claimed as long as any other, and leaves the rest alone', async () => {
    const database = await place.open()
    await plan(database, Array(8).fill(NOON_MS))
    let nowMs = NOON_MS
    const { parts, seen } = sending(database, NOON_MS)
    const deliver: typeof parts.deliver = async (address, answered, nonce) => {
      nowMs += LEASE_MS / 4
      const row = database.db.selectFrom('deliveries').select('claimedUntilMs').where('nonce', '=', nonce)
      const { claimedUntilMs } = await row.executeTakeFirstOrThrow()
      // Nobody else takes what is on its way.
      expect(claimedUntilMs).toBeGreaterThanOrEqual(nowMs)
      await parts.deliver(address, answered, nonce)
    }
    // Four of the five in the first batch fit into its lease, and all of the second do.
    expect(await sendDue({ ...parts, deliver, nowMs: () => nowMs })).toBe(7)
    expect(new Set(seen.map(({ nonce }) => nonce)).size).toBe(7)
    expect(await sendDue({ ...parts, nowMs: () => nowMs + LEASE_MS })).toBe(1)
    expect(new Set(seen.map(({ nonce }) => nonce)).size).toBe(8)
  })

  test('what fails slowly is tried once in a look, so that the look ends', async () => {
    const database = await place.open()
    await plan(database, [NOON_MS, NOON_MS])
    let nowMs = NOON_MS
    const { parts, errors } = sending(database, NOON_MS)
    const deliver = async () => {
      nowMs += 2 * LEASE_MS
      throw new Error('the messenger is away')
    }
    expect(await sendDue({ ...parts, deliver, nowMs: () => nowMs })).toBe(0)
    expect(errors).toHaveLength(1)
    expect(await claim(database, nowMs)).toHaveLength(2)
  })

  test('more messages than one batch all leave, once', async () => {
    const database = await place.open()
    await plan(database, Array(120).fill(NOON_MS))
    const { parts, seen } = sending(database, NOON_MS)
    expect(await sendDue(parts)).toBe(120)
    expect(new Set(seen.map(({ nonce }) => nonce)).size).toBe(120)
  })
})
