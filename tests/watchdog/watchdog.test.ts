import { once } from 'node:events'
import { expect, test } from 'vitest'
import { resultOf, startProcess } from '#tests/helpers/processes.ts'

async function endOf(how: string) {
  const child = startProcess('tests/watchdog/stuck.ts', [how])
  const exit = once(child, 'exit')
  const { output, errors } = await resultOf(child)
  const [code, signal] = (await exit) as [number | null, string | null]
  return { output, errors, ended: code ?? signal }
}

test('a process that does its work is left alone, also while it is busy for a moment', async () => {
  expect(await endOf('well')).toEqual({ output: 'started\nwas busy\nwent on\n', errors: '', ended: 0 })
})

test('one whose event loop is stuck is ended, with a line that says why', async () => {
  const { output, errors, ended } = await endOf('loop')
  expect([output, ended]).toEqual(['started\nwas busy\n', 'SIGKILL'])
  expect(JSON.parse(errors)).toMatchObject({
    level: 60,
    msg: 'the event loop is stuck: ended, to be started again',
  })
})

test('one whose connection stays unwell is told once, so that it ends in order', async () => {
  const { output, ended } = await endOf('gateway')
  expect([output.trim().split('\n').at(-1), ended]).toEqual(['unwell', 1])
})
