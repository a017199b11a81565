import { sql } from 'kysely'
import { expect, test } from 'vitest'
import { say } from '#src/conversation/text.ts'
import { write } from '#src/store/transaction.ts'
import { press, run, speaker } from '#tests/helpers/asks.ts'
import { eachEngine, type Place } from '#tests/helpers/engines.ts'
import { aCrewStore, aSite } from '#tests/helpers/rows.ts'
import { openTestDesk, type TestDesk } from '#tests/helpers/test-desk.ts'

const NOT_SAVED = say('desk.not-recorded')

/** A desk on a store that worked until a moment ago and cannot be written any more. */
async function closed(place: Place, close: (desk: TestDesk) => Promise<void>): Promise<TestDesk> {
  const desk = openTestDesk(await place.open())
  await desk.answer(run('note', { text: 'before' }))
  await close(desk)
  return desk
}

/** What an administrator, a standby server or a mount option does. */
async function forbidWriting({ database }: TestDesk): Promise<void> {
  if (database.words.engine === 'sqlite') await sql`pragma query_only = on`.execute(database.db)
  else {
    const { rows } = await sql<{ name: string }>`select current_database() as name`.execute(database.db)
    const name = sql.id(rows[0]?.name ?? '')
    await sql`alter database ${name} set default_transaction_read_only = on`.execute(database.db)
    // Sessions that are already open keep their own setting.
    await sql`select pg_terminate_backend(pid) from pg_stat_activity
      where datname = current_database() and pid <> pg_backend_pid()`.execute(database.db)
    await sql`set session characteristics as transaction read only`.execute(database.db)
  }
}

async function allowWriting({ database }: TestDesk): Promise<void> {
  if (database.words.engine === 'sqlite') {
    await sql`pragma query_only = off`.execute(database.db)
    return
  }
  const { rows } = await sql<{ name: string }>`select current_database() as name`.execute(database.db)
  await database.db.connection().execute(async (db) => {
    await sql`set session characteristics as transaction read write`.execute(db)
    await sql`alter database ${sql.id(rows[0]?.name ?? '')} reset default_transaction_read_only`.execute(db)
  })
}

eachEngine('a store that cannot be written', (place) => {
  test('a calculation is answered all the same, without a number, and says so', async () => {
    const desk = await closed(place, forbidWriting)
    const answered = await desk.answer(run('sum', { a: 2, b: 3 }))
    expect(answered).toMatchObject({ number: null, turnId: null, replayed: false })
    expect(answered.reply).toMatchObject({ outcome: 'answer', facts: [{ name: 'sum', value: 5 }] })
    expect(answered.reply.lines[0]).toEqual(NOT_SAVED)
    expect(answered.reply.safety.chosen?.length).toBeGreaterThan(0)
    expect(desk.errors).toHaveLength(1)
    await allowWriting(desk)
  })

  test('it is answered to people and crews who are new, too', async () => {
    const desk = await closed(place, forbidWriting)
    const strangers = [
      speaker({ personKey: 'new' }),
      speaker({ crewKey: 'test:new' }),
      speaker({ personName: 'Ada, renamed' }),
    ]
    for (const by of strangers)
      expect(await desk.answer(run('sum', { a: 2, b: 3 }, { by }))).toMatchObject({
        number: null,
        reply: { outcome: 'answer' },
      })
    await allowWriting(desk)
  })

  test('a command that writes is refused, and nothing of it stays', async () => {
    const desk = await closed(place, forbidWriting)
    for (const ask of [run('note', { text: 'lost' }), run('equip', { name: 'lost' })]) {
      const { number, reply } = await desk.answer(ask)
      expect({ number, reply }).toMatchObject({
        number: null,
        reply: { outcome: 'refusal', title: say('desk.cannot'), lines: [NOT_SAVED] },
      })
    }
    await allowWriting(desk)
    expect(await desk.written()).toEqual(['before'])
  })

  test('words of exposure bring the card all the same', async () => {
    const desk = await closed(place, forbidWriting)
    const card = await desk.answer(run('note', { text: 'I got it in my eye' }))
    expect(card).toMatchObject({ number: null, reply: { outcome: 'hold', title: say('emergency.title') } })
    await allowWriting(desk)
  })

  test('a choice pressed meanwhile is not used up', async () => {
    const desk = openTestDesk(await place.open())
    const question = await desk.answer(run('pick'))
    await forbidWriting(desk)
    expect((await desk.answer(press(question, 1))).reply.outcome).toBe('refusal')
    await allowWriting(desk)
    expect((await desk.answer(press(question, 1))).reply.outcome).toBe('answer')
    expect(await desk.written()).toEqual(['once by Ada Test'])
  })

  test('when it can be written again, answers are numbered on from the last one', async () => {
    const desk = await closed(place, forbidWriting)
    await desk.answer(run('sum', { a: 1, b: 1 }))
    await allowWriting(desk)
    expect((await desk.answer(run('sum', { a: 1, b: 1 }))).number).toBe(2)
  })

  if (place.engine === 'sqlite') {
    test('the disk is full: a calculation is answered, and nothing is half written', async () => {
      const desk = await closed(place, async ({ database }) => {
        await write(database, async (db) => {
          const { store } = await aCrewStore(db)
          for (let n = 0; n < 5; n++) await aSite(store, { name: `filler ${n}`, address: 'x'.repeat(2000) })
        })
        const { rows } = await sql<{ pageCount: number }>`pragma page_count`.execute(database.db)
        await sql.raw(`pragma max_page_count = ${rows[0]?.pageCount}`).execute(database.db)
      })
      const before = await desk.written()
      const long = 'x'.repeat(9000)
      const note = await desk.answer(run('note', { text: long }))
      expect(note).toMatchObject({ number: null, reply: { outcome: 'refusal', title: say('desk.cannot') } })
      let numbered = 0
      for (let n = 0; n < 40; n++) {
        const { number, reply } = await desk.answer(run('sum', { a: n, b: 1 }))
        expect(reply.facts).toEqual([{ name: 'sum', value: n + 1 }])
        if (number !== null) numbered += 1
        else expect(reply.lines[0]).toEqual(NOT_SAVED)
      }
      expect(await desk.written()).toEqual(before)
      expect(await desk.look((store) => store.turns.list({ limit: 100 }))).toHaveLength(1 + numbered)
      expect(numbered).toBeLessThan(40)
    })

    test('another process never lets go of the lock: the same', async () => {
      const address = await place.address()
      if (address.engine !== 'sqlite') throw new TypeError('this is about files')
      const desk = openTestDesk(await place.open({ ...address, patienceMs: 80 }))
      await desk.answer(run('note', { text: 'before' }))
      const other = await place.open(address)
      await sql`begin immediate`.execute(other.db)
      expect(await desk.answer(run('sum', { a: 2, b: 3 }))).toMatchObject({
        number: null,
        reply: { outcome: 'answer' },
      })
      await sql`rollback`.execute(other.db)
      expect((await desk.answer(run('sum', { a: 2, b: 3 }))).number).toBe(2)
    })
  }
})
