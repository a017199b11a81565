import fc from 'fast-check'
import { sql } from 'kysely'
import { expect, onTestFinished, test } from 'vitest'
import type { Database } from '#src/store/open.ts'
import { Database as Raw, type SqliteDatabase } from '#src/store/sqlite-engine.ts'
import { readOnly, savepoint, write } from '#src/store/transaction.ts'
import { isUnwritable } from '#src/store/unwritable.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'

const place = sqlitePlace()

/** A store whose commits are counted, and a second connection that sees only what was committed. */
async function openCounted() {
  const address = await place.address()
  if (address.engine !== 'sqlite') throw new Error('This is about SQLite')
  let commits = 0
  const opened = (db: SqliteDatabase) => {
    const prepare = db.prepare.bind(db)
    db.prepare = ((text: string) => {
      const statement = prepare(text)
      if (text !== 'commit') return statement
      const run = statement.run.bind(statement)
      statement.run = (...given: Parameters<typeof run>) => {
        commits += 1
        return run(...given)
      }
      return statement
    }) as typeof db.prepare
  }
  const database = await place.open({ engine: 'sqlite', path: address.path, opened })
  await sql`create table notes (name text not null unique, text text not null)`.execute(database.db)
  const other = new Raw(address.path)
  onTestFinished(() => {
    other.close()
  })
  const onDisk = () => other.prepare('select name from notes order by name').pluck().all() as string[]
  commits = 0
  return { database, onDisk, commits: () => commits }
}

const note = (database: Database, name: string, text = '') =>
  write(database, (db) => sql`insert into notes (name, text) values (${name}, ${text})`.execute(db))

const names = (count: number) =>
  Array.from({ length: count }, (_, at) => `note ${String(at).padStart(3, '0')}`)

test('what waits at the same time is brought to disk by one commit', async () => {
  const { database, onDisk, commits } = await openCounted()
  await Promise.all(names(10).map((name) => note(database, name)))
  expect(commits()).toBe(1)
  expect(onDisk()).toEqual(names(10))
})

test('what comes alone is committed by itself, at once', async () => {
  const { database, onDisk, commits } = await openCounted()
  for (const name of names(3)) {
    await note(database, name)
    expect(onDisk()).toContain(name)
  }
  expect(commits()).toBe(3)
})

test('nobody is told anything before it is on disk', async () => {
  const { database, onDisk } = await openCounted()
  const seen = await Promise.all(
    names(20).map(async (name) => {
      await note(database, name)
      return onDisk().includes(name)
    }),
  )
  expect(seen).toEqual(Array(20).fill(true))
})

test('many in a row do not wait for the last: after some there is a commit', async () => {
  const { database, commits } = await openCounted()
  await Promise.all(names(100).map((name) => note(database, name)))
  expect(commits()).toBeGreaterThanOrEqual(4)
})

test('one that fails is undone alone, and hears why', async () => {
  const { database, onDisk } = await openCounted()
  const tried = await Promise.allSettled([
    note(database, 'first'),
    write(database, async (db) => {
      await sql`insert into notes (name, text) values ('half', '')`.execute(db)
      throw new Error('on second thought')
    }),
    note(database, 'first'),
    note(database, 'last'),
  ])
  expect(tried.map(({ status }) => status)).toEqual(['fulfilled', 'rejected', 'rejected', 'fulfilled'])
  expect(tried[1]).toMatchObject({ reason: { message: 'on second thought' } })
  expect(tried[2]).toMatchObject({ reason: { code: 'SQLITE_CONSTRAINT_UNIQUE' } })
  expect(onDisk()).toEqual(['first', 'last'])
})

test('one that fails first takes nobody with it', async () => {
  const { database, onDisk } = await openCounted()
  const failing = write(database, async (db) => {
    await sql`insert into notes (name, text) values ('half', '')`.execute(db)
    throw new Error('on second thought')
  })
  const tried = await Promise.allSettled([failing, note(database, 'last')])
  expect(tried.map(({ status }) => status)).toEqual(['rejected', 'fulfilled'])
  expect(onDisk()).toEqual(['last'])
})

test('a reader in between sees what was written before it, on disk', async () => {
  const { database, onDisk } = await openCounted()
  const reading = () =>
    readOnly(database, async (db) => {
      const { rows } = await sql<{ name: string }>`select name from notes`.execute(db)
      return [rows.map(({ name }) => name), onDisk()]
    })
  const [, seen] = await Promise.all([note(database, 'before'), reading(), note(database, 'after')])
  expect(seen).toEqual([['before'], ['before']])
  expect(onDisk()).toEqual(['after', 'before'])
})

test('a statement without a transaction of its own is on disk too when it is answered', async () => {
  const { database, onDisk } = await openCounted()
  const alone = sql`insert into notes (name, text) values ('alone', '')`.execute(database.db)
  await Promise.all([note(database, 'before'), alone.then(() => expect(onDisk()).toContain('alone'))])
})

test('a full disk: whoever is told that it is kept finds it there, and nobody else does', async () => {
  const kinds = fc.array(fc.constantFrom('keep', 'fail', 'large', 'large inside'), {
    minLength: 1,
    maxLength: 12,
  })
  await fc.assert(
    fc.asyncProperty(kinds, async (works) => {
      const { database, onDisk } = await openCounted()
      const { rows } = await sql<{ pageCount: number }>`pragma page_count`.execute(database.db)
      await sql.raw(`pragma max_page_count = ${(rows[0]?.pageCount ?? 0) + 3}`).execute(database.db)
      const large = 'x'.repeat(200_000)
      const tried = await Promise.allSettled(
        works.map((kind, at) => {
          const name = `${kind} ${at}`
          if (kind === 'fail')
            return write(database, async (db) => {
              await sql`insert into notes (name, text) values (${name}, '')`.execute(db)
              throw new Error('on second thought')
            })
          if (kind === 'large inside')
            return write(database, (db) =>
              savepoint(db, () => sql`insert into notes (name, text) values (${name}, ${large})`.execute(db)),
            )
          return note(database, name, kind === 'large' ? large : '')
        }),
      )
      const kept = works
        .map((kind, at) => `${kind} ${at}`)
        .filter((_, at) => tried[at]?.status === 'fulfilled')
      expect(onDisk()).toEqual(kept.toSorted())
      for (const [at, kind] of works.entries()) {
        const one = tried[at]
        if (kind.startsWith('large') && one?.status === 'rejected')
          expect(isUnwritable(one.reason)).toBe(true)
      }
      await sql.raw('pragma max_page_count = 1000000').execute(database.db)
      await note(database, 'afterwards')
      expect(onDisk()).toContain('afterwards')
    }),
    { numRuns: 40 },
  )
})
