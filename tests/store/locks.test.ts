import { existsSync, readFileSync, statSync } from 'node:fs'
import { expect, onTestFinished, test } from 'vitest'
import { openSqlite } from '#src/store/sqlite.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'

const place = sqlitePlace()
const LOCKS = '/proc/locks'

/** What the system holds locked of a file for this process, without the running number of each line. */
const locksHeld = (file: string) =>
  readFileSync(LOCKS, 'utf8')
    .split('\n')
    .filter((line) => line.includes(` ${process.pid} `) && line.includes(`:${statSync(file).ino} `))
    .map((line) => line.replace(/^\d+: /, ''))
    .toSorted()

test.runIf(existsSync(LOCKS))('a store that is opened once more in one process keeps its locks', async () => {
  const address = await place.address()
  const path = address.engine === 'sqlite' ? address.path : ''
  const open = () => {
    const db = openSqlite({ path })
    onTestFinished(() => {
      db.close()
    })
    return db
  }
  open().exec('create table notes (text text not null)')
  const held = locksHeld(path)
  expect(held.length).toBeGreaterThan(0)
  open()
  expect(locksHeld(path)).toEqual(held)
})
