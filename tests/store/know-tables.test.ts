import { sql } from 'kysely'
import { expect, onTestFinished, test, vi } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { keepKnowingTables, knowTables } from '#src/store/know-tables.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine, sqlitePlace } from '#tests/helpers/engines.ts'
import { aCrewStore, aPerson } from '#tests/helpers/rows.ts'

/** A crew that was sent a thousand messages, and waits for one more. */
function fill(database: Database) {
  return write(database, async (db) => {
    const { crew, store } = await aCrewStore(db)
    const { id: personId } = await aPerson(store)
    const plan = (nonce: string) =>
      store.deliveries.plan(
        {
          personId,
          command: 'look',
          nonce,
          dueAtMs: NOON_MS,
          reply: reply('answer', say('common.standing')),
        },
        NOON_MS,
      )
    for (let at = 0; at < 1000; at += 1) await plan(`sent-${at}`)
    await db
      .updateTable('deliveries')
      .set(({ ref }) => ({ sentAtMs: sql<number>`${ref('dueAtMs')} + ${ref('id')}` }))
      .execute()
    await plan('waits')
    return { crew, personId }
  })
}

const WAITING = sql`explain query plan
  select person_id from deliveries where crew_id = 1 and command = 'look' and sent_at_ms is null`

eachEngine('tables that were looked at', (place) => {
  test('say what they said before', async () => {
    const database = await place.open()
    const { crew, personId } = await fill(database)
    const waiting = () =>
      write(database, async (db) =>
        (await aCrewStore(db, { key: crew.key })).store.deliveries.waitingFor('look'),
      )
    expect(await waiting()).toEqual(new Set([personId]))
    await Promise.all([knowTables(database), waiting(), knowTables(database)])
    expect(await waiting()).toEqual(new Set([personId]))
  })
})

const place = sqlitePlace()

test('SQLite finds the one message that waits without reading those that were sent', async () => {
  const database = await place.open()
  await fill(database)
  const steps = async () =>
    (await WAITING.execute(database.db)).rows.map((row) => (row as { detail: string }).detail)
  expect(await steps()).toEqual([expect.stringContaining('(crew_id=?)')])
  await knowTables(database)
  expect(await steps()).toEqual([expect.stringMatching(/deliveries_due \(sent_at_ms=\?/)])
})

test('looks come again, one that fails is told of, and none after the end', async () => {
  const database = await place.open()
  const told = vi.fn()
  const stop = keepKnowingTables(database, told, [1, 5])
  await fill(database)
  await vi.waitFor(async () => {
    const { rows } = await sql`select tbl from sqlite_stat1 where tbl = 'deliveries'`.execute(database.db)
    expect(rows.length).toBeGreaterThan(0)
  })
  await stop()
  expect(told).not.toHaveBeenCalled()

  const closed = await place.open()
  await closed.close()
  const stopFailing = keepKnowingTables(closed, told, [1, 60_000])
  onTestFinished(stopFailing)
  await vi.waitFor(() => expect(told).toHaveBeenCalledWith(expect.any(Error), { about: 'looking at tables' }))
})
