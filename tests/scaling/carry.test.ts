import { readFileSync } from 'node:fs'
import path from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { projectRoot } from '#src/project.ts'
import { ASSUMED, carry, crewsADatabase, crewsAProcess, MEASURED } from './carry.ts'
import { carriedRows, DATABASE_CORES, SIZES } from './tables.ts'

const costs = { processMs: 5, databaseMs: 2, statements: 20, heapKb: 3.4 }
const habits = { requestsADay: 72, busyShare: 0.5, busyHours: 2 }

describe('what is carried', () => {
  test('worked out by hand: 36 requests in 7,200 s are 0.005 a second and crew', () => {
    expect(carry(10_000, costs, habits)).toEqual({
      crews: 10_000,
      requestsASecond: 50,
      coresBusy: 0.25,
      processes: 1,
      databaseCoresBusy: 0.1,
      statementsASecond: 1000,
      heapMb: 34,
      shards: 4,
    })
    // Half of a second is 100 requests of 5 ms, which 20,000 crews make.
    expect(crewsAProcess(costs, habits)).toBeCloseTo(20_000)
    // Four cores, half busy, are 1,000 requests of 2 ms, which 200,000 crews make.
    expect(crewsADatabase(costs, habits, 4)).toBeCloseTo(200_000)
  })

  test('so many processes are never more than half busy, and one less would be', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 5_000_000 }),
        fc.double({ min: 0.1, max: 50, noNaN: true }),
        (crews, processMs) => {
          const { coresBusy, processes } = carry(crews, { ...costs, processMs }, habits)
          expect(coresBusy / processes).toBeLessThanOrEqual(0.5 + 1e-9)
          if (processes > 1) expect(coresBusy / (processes - 1)).toBeGreaterThan(0.5)
        },
      ),
    )
  })

  test('one process is enough up to the crews that it carries, and not past them', () => {
    const most = crewsAProcess(costs, habits)
    expect(carry(Math.floor(most), costs, habits).processes).toBe(1)
    expect(carry(Math.ceil(most * 1.01), costs, habits).processes).toBe(2)
  })
})

describe('docs/scaling.md', () => {
  const said = readFileSync(path.join(projectRoot(), 'docs/scaling.md'), 'utf8')

  test('has the table that comes of what was measured', () => {
    for (const row of carriedRows()) expect(said).toContain(`| ${row.join(' | ')} |`)
  })

  test('names the costs and habits that it comes of', () => {
    const of = (label: string) => said.split('\n').find((line) => line.startsWith(`| ${label}`)) ?? ''
    expect(of('processor time of the program')).toContain(`${MEASURED.processMs} ms`)
    expect(of('processor time of PostgreSQL')).toContain(`${MEASURED.databaseMs} ms`)
    expect(of('statements')).toContain(String(MEASURED.statements))
    expect(of('requests of a crew on a workday')).toContain(String(ASSUMED.requestsADay))
  })

  test('says how many crews one process and one database carry', () => {
    const inHundreds = (crews: number) => (Math.floor(crews / 100) * 100).toLocaleString('en')
    expect(said).toContain(`about ${inHundreds(crewsAProcess(MEASURED, ASSUMED))} crews a process`)
    expect(said).toContain(
      `about ${inHundreds(crewsADatabase(MEASURED, ASSUMED, DATABASE_CORES))} crews a database of ${DATABASE_CORES} cores`,
    )
  })

  test('has a row for each size', () => {
    expect(carriedRows().map(([crews]) => crews)).toEqual(SIZES.map((size) => size.toLocaleString('en')))
  })
})
