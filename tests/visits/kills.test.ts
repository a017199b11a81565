import fc from 'fast-check'
import { sql } from 'kysely'
import { describe, expect, test } from 'vitest'
import { momentIn } from '#src/desk/clock.ts'
import type { Answered } from '#src/desk/desk.ts'
import { sendDue } from '#src/reminders/send-due.ts'
import { claimDue } from '#src/store/deliveries.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { planReminders } from '#src/visits/plan-reminders.ts'
import { eachEngine, sqlitePlace } from '#tests/helpers/engines.ts'
import { choose } from '#tests/helpers/test-desk.ts'
import { aCrewOfLooks, type Messenger, messenger, pass, REMEMBERS_MS } from './crew-of-looks.ts'

const MORNING_MS = momentIn('America/Chicago', '2026-05-18', '07:00')
const MINUTE_MS = 60_000
/** A lease is over after a minute: so long after a kill the bot is back. */
const SOON_MS = MINUTE_MS + 1
/** By then the messenger has forgotten the nonce. */
const LATE_MS = REMEMBERS_MS + MINUTE_MS

class Killed extends Error {}

/** The steps of one message, in their order; the process is killed right after one of them. */
const steps = ['planned', 'claimed', 'kept as a turn', 'sent', 'marked sent'] as const
type Step = (typeof steps)[number]

/** One pass that ends with a kill after a step; what had been written by then stands. */
async function killedAfter(
  step: Step,
  database: Database,
  nowMs: number,
  platform: Messenger,
): Promise<void> {
  const reportError = () => {}
  await planReminders({ database, nowMs, reportError })
  if (step === 'planned') return
  if (step === 'claimed') {
    await write(database, (db) => claimDue(db, database.words, { nowMs, leaseMs: MINUTE_MS, limit: 50 }))
    return
  }
  await sendDue({
    database,
    nowMs: () => nowMs,
    chooseSafety: choose,
    reportError,
    deliver: async ({ personKey }, answered: Answered, nonce) => {
      if (step !== 'kept as a turn') platform.take(nowMs, personKey, answered, nonce)
      if (step === 'marked sent') return
      // The process ends here: nothing that comes after this in the pass is done.
      throw new Killed()
    },
  })
}

const unmarked = ({ seen }: Messenger) => seen.filter(({ marked }) => !marked).length

eachEngine('a kill between two steps of a reminder', (place) => {
  test.each(steps)('after it was %s: it arrives, and once', async (step) => {
    const { database } = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const platform = messenger()
    await killedAfter(step, database, MORNING_MS, platform)
    await pass(database, MORNING_MS + SOON_MS, platform)
    await pass(database, MORNING_MS + 2 * SOON_MS, platform)
    expect(platform.seen).toHaveLength(1)
    expect(unmarked(platform)).toBe(1)
  })

  test('sent, killed, and back only after the messenger forgot: the copy says that it may be one', async () => {
    const { database } = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const platform = messenger()
    await killedAfter('sent', database, MORNING_MS, platform)
    await pass(database, MORNING_MS + LATE_MS, platform)
    await pass(database, MORNING_MS + 2 * LATE_MS, platform)
    expect(platform.seen.map(({ marked }) => marked)).toEqual([false, true])
  })

  test('both are the same turn, so that a press on either counts once', async () => {
    const { database } = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const platform = messenger()
    await killedAfter('sent', database, MORNING_MS, platform)
    await pass(database, MORNING_MS + LATE_MS, platform)
    expect(new Set(platform.seen.map(({ answered }) => answered.turnId)).size).toBe(1)
  })
})

describe('whatever is killed, whenever', () => {
  const place = sqlitePlace()

  test('never lost, never twice without a mark', async () => {
    const kill = fc.record({
      step: fc.constantFrom(...steps),
      gapMs: fc.oneof(
        fc.integer({ min: 1, max: 3 * MINUTE_MS }),
        fc.integer({ min: 1, max: 20 * MINUTE_MS }),
      ),
    })
    await fc.assert(
      fc.asyncProperty(fc.array(kill, { maxLength: 6 }), async (kills) => {
        const { database } = await aCrewOfLooks(await place.open(), ['2026-05-04'])
        const platform = messenger()
        let nowMs = MORNING_MS
        for (const { step, gapMs } of kills) {
          await killedAfter(step, database, nowMs, platform)
          nowMs += gapMs
        }
        await pass(database, nowMs + SOON_MS, platform)
        expect(platform.seen.length).toBeGreaterThan(0)
        expect(unmarked(platform)).toBeLessThanOrEqual(1)
      }),
      { numRuns: 25 },
    )
  })
})

describe('a kill in the middle of planning', () => {
  const place = sqlitePlace()

  test('leaves neither a message nor a note that somebody was told', async () => {
    const { database, ids, store } = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    const notes = () =>
      store((one) => one.visits.get(ids.visits[0] ?? 0)).then((kept) => kept?.plan.looks[0]?.reminders)
    // The transaction ends after the note and before the message.
    await sql`create trigger killed before insert on deliveries begin select raise(abort, 'killed'); end`.execute(
      database.db,
    )
    const errors: unknown[] = []
    const reportError = (error: unknown) => errors.push(error)
    await planReminders({ database, nowMs: MORNING_MS, reportError })
    expect(String(errors[0])).toContain('killed')
    expect(await notes()).toEqual([])

    await sql`drop trigger killed`.execute(database.db)
    await planReminders({ database, nowMs: MORNING_MS, reportError })
    expect(errors).toHaveLength(1)
    expect(await notes()).toHaveLength(1)
  })
})
