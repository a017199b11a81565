import { describe, expect, test } from 'vitest'
import { openDatabase } from '#src/store/open.ts'
import { servingOf } from '#src/store/serving.ts'
import { turnstile } from '#src/store/turnstile.ts'
import { eachEngine, postgresPlace } from '#tests/helpers/engines.ts'
import { postgresUrl } from '#tests/helpers/postgres-url.ts'

eachEngine('who serves', (place) => {
  test('is the process that began last, for each part on its own', async () => {
    const database = await place.open()
    const [old, next, other] = [
      servingOf(database, '0,1/4', 'a'),
      servingOf(database, '0,1/4', 'b'),
      servingOf(database, '2,3/4', 'c'),
    ]
    expect(await old.hasSuccessor()).toBe(false)
    await old.begin()
    await other.begin()
    expect(await old.hasSuccessor()).toBe(false)
    await next.begin()
    expect([await old.hasSuccessor(), await next.hasSuccessor(), await other.hasSuccessor()]).toEqual([
      true,
      false,
      false,
    ])
  })
})

// For several processes, which SQLite does not serve.
describe.skipIf(postgresUrl() === null)('a turnstile, on PostgreSQL', () => {
  const place = postgresPlace()
  const never = new AbortController().signal

  test('lets one at a time through, whichever process it is; another key does not wait', async () => {
    const address = await place.address()
    const databases = await Promise.all([1, 2, 3].map(() => place.open(address, 'live')))
    const gapMs = 300
    const passed: number[] = []
    const began = performance.now()
    await Promise.all(
      databases.map(async (database) => {
        await turnstile(database, 'identify', gapMs)(0, never)
        passed.push(performance.now())
      }),
    )
    const [first = 0, second = 0, third = 0] = passed
    // Both clocks may be read a moment after the row was written.
    expect(second - first).toBeGreaterThan(gapMs - 100)
    expect(third - first).toBeGreaterThan(2 * gapMs - 100)
    const [one] = databases
    if (one === undefined) throw new Error('Nothing was opened')
    const beside = performance.now()
    await turnstile(one, 'identify', gapMs)(1, never)
    expect(performance.now() - beside).toBeLessThan(beside - began)
  })

  test('whoever gives up is no longer in the way', async () => {
    const database = await openDatabase(await place.address(), 'live')
    try {
      const pass = turnstile(database, 'identify', 60_000)
      await pass(0, never)
      const enough = new AbortController()
      const waiting = pass(0, enough.signal)
      enough.abort(new Error('given up'))
      await expect(waiting).rejects.toThrow()
    } finally {
      await database.close()
    }
  })
})
