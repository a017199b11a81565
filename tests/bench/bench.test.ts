import { execFile } from 'node:child_process'
import { promisify } from 'node:util'
import { expect, test } from 'vitest'
import { projectRoot } from '#src/project.ts'
import { measureExports } from './exports.ts'
import { percentile, rowsOf } from './figures.ts'
import { measureGrowth } from './growth.ts'

test('the store is asked as often for twice as many records', async () => {
  const grown = await measureGrowth([400, 800], 2)
  expect(grown).toHaveLength(8)
  for (const { records, work, statements } of grown) {
    const same = grown.filter((one) => one.work === work).map((one) => one.statements)
    expect(same, `${work} at ${records}`).toEqual([statements, statements])
  }
}, 60_000)

test('papers are measured beside the bare driver, on records that can be read', async () => {
  const exported = await measureExports(50, ['csv', 'json', 'pdf'])
  expect(exported.map(({ work }) => work)).toEqual([
    'bare driver and CSV writer',
    'bare driver and JSON writer',
    'CSV',
    'JSON',
    'PDF',
  ])
  for (const { work, megabytes, speed_ratio } of exported.slice(1)) {
    expect(megabytes, work).toBeGreaterThan(0.02)
    expect(speed_ratio, work).toBeGreaterThan(0)
  }
  // Each against the bare driver that writes what it writes; nothing else writes a PDF.
  expect(exported.map(({ same_format_ratio }) => same_format_ratio)).toEqual([
    null,
    null,
    expect.any(Number),
    expect.any(Number),
    null,
  ])
}, 60_000)

test('a percentile is the value below which that share lies (nearest rank)', () => {
  const values = Array.from({ length: 200 }, (_, at) => 200 - at)
  expect([0.5, 0.99, 1].map((share) => percentile(values, share))).toEqual([100, 198, 200])
  expect(percentile([7], 0.99)).toBe(7)
})

test('a row is held against the other one that was measured beside it', () => {
  const times = new Map([
    ['bare', [1, 2, 3]],
    ['ours', [3, 4, 6]],
  ])
  expect(rowsOf(times, { ours: 'bare' })).toEqual([
    { name: 'bare', median_ms: 2, p99_ms: 3, ratio_median: null, ratio_p99: null, against: null },
    { name: 'ours', median_ms: 4, p99_ms: 6, ratio_median: 2, ratio_p99: 2, against: 'bare' },
  ])
})

test('a short run prints what is promised, and ends with 0', async () => {
  const { stdout } = await promisify(execFile)(
    process.execPath,
    [
      'src/launch.mjs',
      'tests/bench/main.ts',
      '--samples',
      '3',
      '--products',
      '20',
      '--quick',
      '--seconds',
      '1',
      '--json',
    ],
    { cwd: projectRoot() },
  )
  const report = JSON.parse(stdout.trim().split('\n').at(-1) ?? '')
  expect(Object.keys(report)).toEqual(['rows', 'memory', 'throughput', 'growth', 'start', 'exports'])
  expect(report.throughput).toMatchObject([
    { name: 'echo with one durable insert', ratio: null },
    { name: '/rate', engine: 'sqlite', processes: 1, ratio: expect.any(Number) },
    { name: '/mix', engine: 'sqlite', processes: 1, ratio: expect.any(Number) },
  ])
  for (const { per_second } of report.throughput) expect(per_second).toBeGreaterThan(0)
  const names = report.rows.map(({ name }: { name: string }) => name)
  expect(names).toEqual(expect.arrayContaining(['echo', '/rate', '/mix', '/key step', '/log', '/log step']))
  for (const row of report.rows) {
    expect(row).toMatchObject({ median_ms: expect.any(Number), p99_ms: expect.any(Number) })
    if (row.against !== null) {
      expect(names).toContain(row.against)
      expect(row.ratio_median).toBeGreaterThan(0)
      expect(row.ratio_p99).toBeGreaterThan(0)
    }
  }
}, 120_000)
