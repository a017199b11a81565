import fc from 'fast-check'
import { expect, test } from 'vitest'
import { ownPace, paceOf } from '#src/reminders/pace.ts'

/** A clock that moves only when somebody waits. */
function clock() {
  let ms = 0
  return {
    now: () => ms,
    wait: async (forMs: number) => {
      ms = Math.max(ms, ms + forMs)
    },
    pass: (forMs: number) => {
      ms += forMs
    },
  }
}

test('no second holds more than was agreed, whatever the gaps between those who ask', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 1, max: 50 }),
      fc.array(fc.integer({ min: 0, max: 2000 }), { minLength: 1, maxLength: 200 }),
      async (perSecond, gaps) => {
        const { now, wait, pass } = clock()
        const pace = paceOf(perSecond, now, wait)
        const left: number[] = []
        for (const gap of gaps) {
          pass(gap)
          await pace()
          left.push(now())
        }
        for (const atMs of left) {
          const within = left.filter((one) => one >= atMs && one < atMs + 999).length
          expect(within).toBeLessThanOrEqual(perSecond)
        }
      },
    ),
  )
})

test('a quiet minute saves nothing up, and nobody who comes after it waits', async () => {
  const { now, wait, pass } = clock()
  const pace = paceOf(10, now, wait)
  await pace()
  pass(60_000)
  const began = now()
  await pace()
  expect(now()).toBe(began)
  await pace()
  expect(now()).toBe(began + 100)
})

test('processes share by their shards', async () => {
  const whole = ownPace(null)
  const began = performance.now()
  await whole()
  await whole()
  expect(performance.now() - began).toBeGreaterThan(40)
  const quarter = ownPace({ ids: [0, 1], count: 8 })
  await quarter()
  const later = performance.now()
  await quarter()
  expect(performance.now() - later).toBeGreaterThan(190)
})
