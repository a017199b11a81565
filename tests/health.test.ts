import type { AddressInfo } from 'node:net'
import { sql } from 'kysely'
import { expect, onTestFinished, test } from 'vitest'
import { reply } from '#src/conversation/reply.ts'
import { asTyped } from '#src/conversation/text.ts'
import { serveHealth } from '#src/health.ts'
import { storeCondition } from '#src/store/condition.ts'
import { crewStore } from '#src/store/crew-store.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine, sqlitePlace } from '#tests/helpers/engines.ts'
import { aCrew, aPerson } from '#tests/helpers/rows.ts'

const MINUTE_MS = 60_000
const gateway = () => ({ ok: true, shards: [], ended: null })

async function planned(database: Database, dueAtMs: number) {
  await write(database, async (db) => {
    const store = crewStore(db, (await aCrew(db)).id)
    const { id: personId } = await aPerson(store)
    const message = reply('answer', asTyped('a secret word'))
    await store.deliveries.plan({ personId, command: 'x', reply: message, nonce: 'n', dueAtMs }, NOON_MS)
  })
}

async function ask(database: Database, isConnected = true) {
  const server = await serveHealth({
    port: 0,
    setting: 'HEALTH_PORT',
    gateway: () => ({ ...gateway(), ok: isConnected }),
    store: () => storeCondition(database, NOON_MS),
  })
  onTestFinished(() => void server.close())
  const { address, port } = server.address() as AddressInfo
  expect(address).toBe('127.0.0.1')
  const response = await fetch(`http://127.0.0.1:${port}/health`)
  return { status: response.status, body: (await response.json()) as Record<string, unknown> }
}

eachEngine('the health of a store', (place) => {
  test('is well when it takes a row and nothing is overdue', async () => {
    const database = await place.open()
    await planned(database, NOON_MS + 1)
    expect(await storeCondition(database, NOON_MS)).toMatchObject({ ok: true, overdue: 0, lagMs: 0 })
    expect((await storeCondition(database, NOON_MS)).writeMs).toBeGreaterThan(0)
  })

  test('tells how late the oldest message is', async () => {
    const database = await place.open()
    await planned(database, NOON_MS - 7 * MINUTE_MS)
    expect(await storeCondition(database, NOON_MS)).toMatchObject({
      ok: true,
      overdue: 1,
      lagMs: 7 * MINUTE_MS,
    })
  })

  test('that is closed is not well, and nothing is thrown', async () => {
    const database = await place.open()
    await database.close()
    expect(await storeCondition(database, NOON_MS)).toMatchObject({ ok: false, writeMs: null })
  })
})

const place = sqlitePlace()

test('the page answers 200 while all is well', async () => {
  expect(await ask(await place.open())).toMatchObject({
    status: 200,
    body: { ok: true, gateway: { ok: true }, store: { ok: true }, reminders: { ok: true, overdue: 0 } },
  })
})

test.each([
  ['the gateway is away', async () => ask(await place.open(), false), { gateway: { ok: false } }],
  [
    'the disk is full',
    async () => {
      const database = await place.open()
      await sql`pragma query_only = on`.execute(database.db)
      return ask(database)
    },
    { store: { ok: false, writeMs: null } },
  ],
  [
    'a reminder is more than five minutes late',
    async () => {
      const database = await place.open()
      await planned(database, NOON_MS - 6 * MINUTE_MS)
      return ask(database)
    },
    { reminders: { ok: false, overdue: 1, lagMs: 6 * MINUTE_MS } },
  ],
])('the page answers 503 when %s, and tells nothing that anybody wrote', async (_what, asked, part) => {
  const { status, body } = await asked()
  expect(status).toBe(503)
  expect(body).toMatchObject({ ok: false, ...part })
  expect(JSON.stringify(body)).not.toContain('secret')
})
