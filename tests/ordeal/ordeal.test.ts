import { expect, test } from 'vitest'
import { runOrdeal } from './run.ts'

/** A short part of `npm run ordeal`: the faults that touch the store, and those that make people and platform repeat. */
const SHORT = ['disk-full', 'disk-read-only', 'store-locked', 'two-processes', 'dispatches-again', 'rest-cut']

test('killed, starved of disk and told everything twice, the bot loses nothing and doubles nothing', async () => {
  const report = await runOrdeal({ seed: 11, kills: 5, seconds: 0, faults: SHORT })
  const { lost, doubled, wrong, chain } = report.findings
  expect({ lost, doubled, wrong }).toEqual({ lost: [], doubled: [], wrong: [] })
  expect(chain.flatMap(({ breaks }) => breaks)).toEqual([])
  expect(report.kills).toBeGreaterThanOrEqual(5)
  expect(Object.keys(report.faults).sort()).toEqual([...SHORT].sort())
  expect(Math.min(...Object.values(report.faults))).toBeGreaterThan(0)
  // Something was at stake.
  expect(report.answered).toBeGreaterThan(10)
  expect(report.findings.answers).toBeGreaterThan(10)
  expect(report.findings.records).toBeGreaterThan(0)
  const links = chain.reduce((sum, one) => sum + one.links, 0)
  expect(links).toBeGreaterThan(0)
  expect(links).toBeGreaterThanOrEqual(report.findings.records)
}, 180_000)
