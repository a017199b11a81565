import { expect, test } from 'vitest'
import { prepared } from '#src/store/prepared.ts'
import { write } from '#src/store/transaction.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrew } from '#tests/helpers/rows.ts'

eachEngine('a statement that is put into words once', (place) => {
  test('takes the values of each time, and is written once for a database', async () => {
    let written = 0
    const keyOf = prepared((db, name: string, zone: string) => {
      written += 1
      return db.selectFrom('crews').select('key').where('name', '=', name).where('zone', '=', zone)
    })
    for (const database of [await place.open(), await place.open()])
      await write(database, async (db) => {
        const { zone } = await aCrew(db, { key: 'test:1', name: "O'Demo ?" })
        await aCrew(db, { key: 'test:2', name: '$1' })
        expect((await keyOf(db, "O'Demo ?", zone)).rows).toEqual([{ key: 'test:1' }])
        expect((await keyOf(db, '$1', zone)).rows).toEqual([{ key: 'test:2' }])
        expect((await keyOf(db, '$1', 'elsewhere')).rows).toEqual([])
      })
    expect(written).toBe(2)
  })

  test('is refused once its transaction is over, like every statement', async () => {
    const database = await place.open()
    const all = prepared((db) => db.selectFrom('crews').select('key'))
    const kept = await write(database, async (db) => {
      await aCrew(db)
      return db
    })
    await expect(all(kept)).rejects.toThrow(/committed/)
    expect((await all(database.db)).rows).toHaveLength(1)
  })

  test('names of the store come back as names of the code', async () => {
    const database = await place.open()
    const revisions = prepared((db) =>
      db.selectFrom('crews').select(['bookRevision', 'createdAtMs as madeAtMs']),
    )
    await write(database, async (db) => {
      await aCrew(db, { atMs: 5 })
      const expected = [{ bookRevision: 0, madeAtMs: 5 }]
      expect((await revisions(db)).rows).toEqual(expected)
      // The second time it may be remembered, under the store's own names.
      expect((await revisions(db)).rows).toEqual(expected)
    })
  })

  test('writes nothing as well as something', async () => {
    const database = await place.open()
    const settle = prepared((db, state: string | null, key: string) =>
      db.updateTable('crews').set({ state }).where('key', '=', key),
    )
    await write(database, async (db) => {
      const { key } = await aCrew(db)
      const state = () => db.selectFrom('crews').select('state').executeTakeFirst()
      await settle(db, 'TX', key)
      expect(await state()).toEqual({ state: 'TX' })
      await settle(db, null, key)
      expect(await state()).toEqual({ state: null })
    })
  })
})
