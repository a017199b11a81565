import { expect, test } from 'vitest'
import { readOnly, savepoint, write } from '#src/store/transaction.ts'
import { isUnwritable } from '#src/store/unwritable.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrew, aCrewStore, anArea, aSite } from '#tests/helpers/rows.ts'

const caught = (work: Promise<unknown>): Promise<unknown> =>
  work.then(
    () => null,
    (error: unknown) => error,
  )

eachEngine('transactions', (place) => {
  test('work that fails leaves nothing', async () => {
    const database = await place.open()
    const failing = write(database, async (db) => {
      await aCrew(db)
      throw new Error('a bug')
    })
    await expect(failing).rejects.toThrow('a bug')
    expect(await database.db.selectFrom('crews').selectAll().execute()).toEqual([])
  })

  test('a savepoint undoes its own work alone, after a bug or an error of the database', async () => {
    const database = await place.open()
    await write(database, async (db) => {
      const { store } = await aCrewStore(db)
      await aSite(store, { name: 'before' })
      const bug = savepoint(db, async () => {
        await aSite(store, { name: 'undone' })
        throw new Error('a bug')
      })
      await expect(bug).rejects.toThrow('a bug')
      const broken = savepoint(db, async () => {
        await aSite(store, { name: 'undone too' })
        await anArea(store, 4711)
      })
      await expect(broken).rejects.toThrow(/foreign key/i)
      await aSite(store, { name: 'between' })
      await savepoint(db, () => aSite(store, { name: 'kept' }))
      expect((await store.sites.list()).map(({ name }) => name)).toEqual(['before', 'between', 'kept'])
    })
    expect(await database.db.selectFrom('sites').select('name').execute()).toHaveLength(3)
  })

  test('a view reads what is there and cannot write, and writing works again after it', async () => {
    const database = await place.open()
    await write(database, (db) => aCrew(db))
    expect(await readOnly(database, (db) => db.selectFrom('crews').select('key').execute())).toHaveLength(1)
    const error = await caught(readOnly(database, (db) => aCrew(db, { key: 'test:2' })))
    expect(isUnwritable(error)).toBe(true)
    await write(database, (db) => aCrew(db, { key: 'test:3' }))
    const crews = await database.db.selectFrom('crews').select('key').orderBy('id').execute()
    expect(crews.map(({ key }) => key)).toEqual(['test:1', 'test:3'])
  })

  test('requests of one crew take turns: what each reads, it may still rely on when it writes', async () => {
    const database = await place.open()
    const { id } = await write(database, (db) => aCrew(db))
    const addOne = () =>
      write(database, async (db) => {
        await database.words.lockCrew(db, id)
        const row = await db.selectFrom('crews').select('answers').executeTakeFirstOrThrow()
        await new Promise((done) => setTimeout(done, 2))
        await db
          .updateTable('crews')
          .set({ answers: row.answers + 1 })
          .execute()
      })
    await Promise.all(Array.from({ length: 20 }, addOne))
    const row = await database.db.selectFrom('crews').select('answers').executeTakeFirstOrThrow()
    expect(row.answers).toBe(20)
  })

  test('what cannot be written is told from what is wrong', async () => {
    const database = await place.open()
    const wrong = await caught(write(database, async (db) => anArea((await aCrewStore(db)).store, 4711)))
    expect(isUnwritable(wrong)).toBe(false)
    expect([null, 'SQLITE_FULL', new Error('a bug')].some(isUnwritable)).toBe(false)
    const full = Object.assign(new Error('full'), { code: 'SQLITE_FULL' })
    expect([full, new Error('wrapped', { cause: full })].every(isUnwritable)).toBe(true)
  })
})
