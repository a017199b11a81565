import { sql } from 'kysely'
import type pg from 'pg'
import { describe, expect, test } from 'vitest'
import { namingStatements } from '#src/store/named-statements.ts'
import { write } from '#src/store/transaction.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aCrew } from '#tests/helpers/rows.ts'

/** Stands in for connections to a server: what each was asked, with the name it was asked under. */
function connections() {
  const asked: { readonly name: string | null; readonly text: string; readonly values: unknown }[] = []
  const client = {
    async query(words: string | { name: string; text: string; values: unknown }, values?: unknown) {
      asked.push(typeof words === 'string' ? { name: null, text: words, values } : words)
      return { rows: [] }
    },
    release() {},
  }
  const pool = { connect: async () => client, end: async () => {} } as unknown as pg.Pool
  return { asked, pool: namingStatements(pool) }
}

async function namesOf(texts: readonly string[]) {
  const { asked, pool } = connections()
  for (const [at, text] of texts.entries()) await (await pool.connect()).query(text, [at])
  expect(asked.map((one) => [one.text, one.values])).toEqual(texts.map((text, at) => [text, [at]]))
  return asked.map(({ name }) => name)
}

describe('a statement on PostgreSQL', () => {
  test('gets a name of its own when it is asked again, and keeps it', async () => {
    const [one, two] = ['select "id" from "crews" where "key" = $1', 'update "crews" set "name" = $1']
    const names = await namesOf([one, two, one, two, one])
    expect(names.slice(0, 2)).toEqual([null, null])
    expect(names[4]).toBe(names[2])
    expect(new Set([names[2], names[3]]).size).toBe(2)
    expect(names.slice(2)).not.toContain(null)
  })

  test.each([
    'begin',
    'commit',
    'savepoint command',
    'set transaction read only',
    'select * from "crews" where "key" = $1',
    'insert into "crews" ("key") values ($1) returning *',
    'select "one".* from "crews" as "one"',
  ])('%s never gets one', async (text) => {
    expect(await namesOf([text, text, text])).toEqual([null, null, null])
  })

  test('counting has one: what it gives back is always a number', async () => {
    const count = 'select count(*) as "all" from "turns" where "crew_id" = $1'
    expect((await namesOf([count, count]))[1]).not.toBeNull()
  })

  test('connections hold no more names than a few hundred', async () => {
    const texts = Array.from({ length: 2000 }, (_, at) => `select "id" from "turns" limit ${at}`)
    const names = await namesOf([...texts, ...texts])
    expect(names.filter((name) => name !== null).length).toBeLessThanOrEqual(300)
  })
})

eachEngine('a store whose tables change while it is open', (place) => {
  test('goes on answering what it was asked before', async () => {
    const address = await place.address()
    const [database, other] = [await place.open(address), await place.open(address)]
    const crew = await write(database, (db) => aCrew(db, { key: 'test:1' }))
    const ask = () =>
      write(database, (db) =>
        db.selectFrom('crews').select(['id', 'name']).where('key', '=', 'test:1').executeTakeFirst(),
      )
    for (let time = 0; time < 3; time += 1) expect(await ask()).toEqual({ id: crew.id, name: crew.name })
    await sql`alter table crews add column later text`.execute(other.db)
    expect(await ask()).toEqual({ id: crew.id, name: crew.name })
    expect((await write(database, (db) => aCrew(db, { key: 'test:1' }))).id).toBe(crew.id)
  })
})
