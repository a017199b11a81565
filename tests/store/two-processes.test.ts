import { expect, test } from 'vitest'
import { write } from '#src/store/transaction.ts'
import { run } from '#tests/helpers/asks.ts'
import { sqlitePlace } from '#tests/helpers/engines.ts'
import { beat } from '#tests/helpers/heartbeat.ts'
import { linesOf, resultOf, startProcess } from '#tests/helpers/processes.ts'
import { aCrew } from '#tests/helpers/rows.ts'
import { openTestDesk } from '#tests/helpers/test-desk.ts'

const place = sqlitePlace()
const file = async () => {
  const address = await place.address()
  return address.engine === 'sqlite' ? address.path : ''
}

test('two processes write to one file at once: nothing is lost, doubled, or told to be busy', async () => {
  const path = await file()
  const COUNT = 60
  const results = await Promise.all(
    ['ada', 'ben'].map((name) =>
      resultOf(startProcess('tests/helpers/writer.ts', [path, name, String(COUNT)])),
    ),
  )
  expect(results.map(({ status, errors }) => [status, errors])).toEqual([
    [0, ''],
    [0, ''],
  ])
  const told = results.map(({ output }) => JSON.parse(output) as { numbers: number[]; failed: string[] })
  expect(told.flatMap(({ failed }) => failed)).toEqual([])
  const numbers = told.flatMap((one) => one.numbers).sort((one, other) => one - other)
  expect(numbers).toEqual(Array.from({ length: 2 * COUNT }, (_, at) => at + 1))

  const desk = openTestDesk(await place.open({ engine: 'sqlite', path }))
  const written = ['ada', 'ben'].flatMap((name) => Array.from({ length: COUNT }, (_, n) => `${name} ${n}`))
  expect((await desk.written()).sort()).toEqual(written.sort())
})

// Tried again when the machine itself stood still: only what this program does is measured.
test('a slow disk and a lock held for a second hold up the request, but nothing else', {
  retry: 2,
}, async () => {
  const path = await file()
  const database = await place.open({ engine: 'sqlite', path, pauseMs: 5 })
  await write(database, (db) => aCrew(db))
  const desk = openTestDesk(database)
  const holder = startProcess('tests/helpers/lock-holder.ts', [path, '1000'])
  await linesOf(holder, 1)

  const began = performance.now()
  const answers = Promise.all(['first', 'second', 'third'].map((text) => desk.answer(run('note', { text }))))
  const gaps = await beat({ everyMs: 10, until: answers })
  expect((await answers).map(({ number }) => number)).toEqual([1, 2, 3])
  expect(performance.now() - began).toBeGreaterThan(500)
  expect(gaps.length).toBeGreaterThan(20)
  expect(Math.max(...gaps)).toBeLessThan(100)
})
