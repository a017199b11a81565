import { expect, test } from 'vitest'
import { WrongDatabase } from '#src/store/migrate.ts'
import { write } from '#src/store/transaction.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrew } from '#tests/helpers/rows.ts'

eachEngine('opening a store', (place) => {
  test('a fresh one gets the schema and says what it is for', async () => {
    const { db } = await place.open()
    const meta = await db.selectFrom('meta').selectAll().orderBy('name').execute()
    expect(meta.map(({ name }) => name)).toEqual(['purpose', 'schema', 'shape'])
    expect(meta[0]?.value).toBe('practice')
    expect(Number(meta[1]?.value)).toBeGreaterThan(0)
  })

  test('opened again, everything is still there', async () => {
    const address = await place.address()
    const first = await place.open(address)
    const crew = await write(first, (db) => aCrew(db))
    const again = await place.open(address)
    expect(await write(again, (db) => aCrew(db))).toEqual(crew)
  })

  test('opened by several at once, the schema is made once', async () => {
    const address = await place.address()
    const opened = await Promise.all([1, 2, 3].map(() => place.open(address)))
    const crews = await Promise.all(opened.map((database) => write(database, (db) => aCrew(db))))
    expect(new Set(crews.map(({ id }) => id)).size).toBe(1)
  })

  test('one written by a newer program is refused and left as it is', async () => {
    const address = await place.address()
    const { db } = await place.open(address)
    await db.updateTable('meta').set({ value: '4711' }).where('name', '=', 'schema').execute()
    await expect(place.open(address)).rejects.toThrow(
      /^Cannot open the database: it was written by a newer program \(schema 4711, this one knows \d+\)$/,
    )
    await expect(place.open(address)).rejects.toBeInstanceOf(WrongDatabase)
    const kept = await db.selectFrom('meta').select('value').where('name', '=', 'schema').execute()
    expect(kept).toEqual([{ value: '4711' }])
  })

  test('a practice store of an unfinished program is refused with what to do about it', async () => {
    const address = await place.address()
    const { db } = await place.open(address)
    await db.updateTable('meta').set({ value: 'other tables' }).where('name', '=', 'shape').execute()
    await expect(place.open(address)).rejects.toThrow(/^Cannot open the database: an unfinished version/)
  })

  test('a live store keeps no such mark', async () => {
    const { db } = await place.open(await place.address(), 'live')
    const meta = await db.selectFrom('meta').select('name').orderBy('name').execute()
    expect(meta.map(({ name }) => name)).toEqual(['purpose', 'schema'])
  })

  test.each([
    ['practice', 'live'],
    ['live', 'practice'],
  ] as const)('a %s store is refused for a %s run', async (made, wanted) => {
    const address = await place.address()
    await place.open(address, made)
    await expect(place.open(address, wanted)).rejects.toThrow(
      `Cannot open the database: it is a ${made} database and this is a ${wanted} run`,
    )
  })
})
