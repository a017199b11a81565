import { expect, test, vi } from 'vitest'
import type { Handler } from '#src/messengers/discord/handle.ts'
import { laterHandler } from '#src/messengers/discord/later-handler.ts'

const log = { debug() {}, info() {}, warn() {}, error: vi.fn() }

/** A handler that notes what it is told, and what brings it when the test says so. */
function stage() {
  const told: unknown[] = []
  let open: () => void = () => {}
  const gate = new Promise<void>((done) => {
    open = done
  })
  const handler: Handler = {
    take: (raw) => void told.push(raw),
    drain: async (newcomers) => void told.push(newcomers),
    inFlight: 0,
  }
  const bring = vi.fn(async () => {
    await gate
    return handler
  })
  return { told, open, bring, later: laterHandler(bring, log) }
}

const turn = () => new Promise((done) => setTimeout(done))

test('what comes before there is something that answers is taken then, in its order', async () => {
  const { told, open, bring, later } = stage()
  expect(bring).not.toHaveBeenCalled()
  for (const raw of [1, 2, 3]) later.take(raw)
  expect([told, later.inFlight]).toEqual([[], 3])
  open()
  await turn()
  later.take(4)
  expect([told, later.inFlight, bring.mock.calls.length]).toEqual([[1, 2, 3, 4], 0, 1])
})

test('a farewell answers what has come before it, and turns away what comes after', async () => {
  const { told, open, later } = stage()
  later.take('before')
  const drained = later.drain('turn-away')
  later.take('after')
  open()
  await drained
  await turn()
  expect(told.indexOf('before')).toBe(0)
  expect(told.indexOf('turn-away')).toBeLessThan(told.indexOf('after'))
})

test('who leaves before anything has come loads nothing for it', async () => {
  const { told, bring, later } = stage()
  await later.drain('leave-to-other')
  expect([told, bring.mock.calls.length]).toEqual([[], 0])
})

test('an interaction for which nothing could be brought is told of, and the next one tries again', async () => {
  const told: unknown[] = []
  const handler: Handler = { take: (raw) => void told.push(raw), drain: async () => {}, inFlight: 0 }
  const bring = vi.fn(async () => handler).mockRejectedValueOnce(new Error('no such file'))
  const later = laterHandler(bring, log)
  later.take('lost')
  await turn()
  expect(log.error).toHaveBeenCalledWith(expect.anything(), 'an interaction was lost')
  later.take('answered')
  await turn()
  expect(told).toEqual(['answered'])
})
