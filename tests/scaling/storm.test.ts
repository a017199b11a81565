import fc from 'fast-check'
import { expect, test } from 'vitest'
import { PER_SECOND } from '#src/reminders/pace.ts'
import { neededFor, simulateStorm, USUAL } from './storm.ts'

test('1,000 crews with two messages each have theirs within minutes, and the platform refuses nothing', () => {
  const { lateMinutes, refused } = simulateStorm({ ...USUAL, crews: 1_000 })
  for (const [zone, minutes] of Object.entries(lateMinutes)) expect(minutes, zone).toBeLessThanOrEqual(3)
  expect(refused).toBe(0)
})

test('a zone’s backlog of 10,000 crews is gone before the next zone’s morning', () => {
  const { lateMinutes, minutes } = simulateStorm({ ...USUAL, crews: 10_000 })
  for (const late of Object.values(lateMinutes)) expect(late).toBeLessThan(20)
  expect(minutes).toBeLessThan(3 * 60 + 20)
})

test('at a hundred times as many it takes hours: no queueing brings more through than the platform takes', () => {
  const { lateMinutes } = simulateStorm({ ...USUAL, crews: 1_000_000 })
  expect(lateMinutes.Eastern).toBeGreaterThan(600)
})

test('at a pace above the limit the platform refuses, and little more is sent', () => {
  const agreed = simulateStorm({ ...USUAL, crews: 2_000 })
  const greedy = simulateStorm({ ...USUAL, crews: 2_000, perSecond: 100, processes: 8 })
  expect(agreed.refused).toBe(0)
  expect(greedy.refused).toBeGreaterThan(1000)
  expect(greedy.mostRequestsASecond).toBe(50)
})

test('whatever the processes, all leave, none before its time, and never faster than agreed', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 10, max: 3000 }),
      fc.integer({ min: 1, max: 16 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (crews, processes, strangers) => {
        const storm = simulateStorm({ ...USUAL, crews, processes, strangers })
        expect(storm.mostRequestsASecond).toBeLessThanOrEqual(50)
        for (const late of Object.values(storm.lateMinutes)) expect(late).toBeGreaterThanOrEqual(0)
        // The first of each process leaves at once; after that all share the pace.
        expect(storm.sentPerSecond).toBeLessThanOrEqual(
          PER_SECOND * 1.1 + (processes * 60) / crews + processes,
        )
      },
    ),
    { numRuns: 50 },
  )
})

test.each([10_000, 100_000, 1_000_000])(
  'with what %i crews need for ten minutes nobody waits longer and nothing is refused; with less somebody does',
  (crews) => {
    const processes = Math.ceil(crews / 20_000)
    const needed = neededFor(10, { ...USUAL, crews, processes }) ?? expect.fail()
    const storm = simulateStorm({ ...USUAL, crews, processes, ...needed })
    expect(Math.max(...Object.values(storm.lateMinutes))).toBeLessThanOrEqual(10)
    expect(storm.refused).toBe(0)
    const perSecond = needed.perSecond - 1
    const slower = simulateStorm({ ...USUAL, crews, processes, ...needed, perSecond })
    expect(Math.max(...Object.values(slower.lateMinutes))).toBeGreaterThan(10)
  },
)

test('one process is not through a million crews in ten minutes at any pace', () => {
  expect(neededFor(10, { ...USUAL, crews: 1_000_000 })).toBeNull()
})
