import { expect, test } from 'vitest'
import { furthestDay, momentIn } from '#src/desk/clock.ts'
import type { Database } from '#src/store/open.ts'
import { write } from '#src/store/transaction.ts'
import { mayHaveWork } from '#src/store/waiting-work.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrewOfLooks, messenger, pass } from './crew-of-looks.ts'

const at = (time: string, day = '2026-05-18') => momentIn('America/Chicago', day, time)
const hasWork = (database: Database, nowMs: number) => mayHaveWork(database, nowMs, furthestDay(nowMs))

test('the furthest day is tomorrow in UTC, which is today where the clock is ahead of it by half a day', () => {
  expect(furthestDay(Date.parse('2026-05-18T00:00:00Z'))).toBe('2026-05-19')
  expect(furthestDay(Date.parse('2026-12-31T23:59:59Z'))).toBe('2027-01-01')
})

eachEngine('whether anything may have to leave', (place) => {
  test('a store in which nothing is planned has none', async () => {
    expect(await hasWork(await place.open(), at('06:00'))).toBe(false)
  })

  test('a look that is open may bring a message; one that is weeks ahead brings none', async () => {
    const { database } = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    expect(await hasWork(database, at('06:00', '2026-05-05'))).toBe(false)
    expect(await hasWork(database, at('06:00'))).toBe(true)
  })

  test('a message is work from when it is due until it has left', async () => {
    const { database } = await aCrewOfLooks(await place.open(), ['2026-05-04'])
    await pass(database, at('07:00'), messenger())
    await write(database, (db) => db.updateTable('visits').set({ openOn: null }).execute())
    expect(await hasWork(database, at('07:02'))).toBe(false)
    await write(database, (db) => db.updateTable('deliveries').set({ sentAtMs: null }).execute())
    expect(await hasWork(database, at('07:02'))).toBe(true)
    expect(await hasWork(database, at('06:59'))).toBe(false)
  })
})
