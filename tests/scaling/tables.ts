import { ASSUMED, carry, MEASURED } from './carry.ts'

export const SIZES = [100, 10_000, 1_000_000] as const
/** Of a machine that does nothing else. */
export const DATABASE_CORES = 8

export const CARRIED_HEAD = [
  'crews',
  'requests a second',
  'cores busy',
  'processes',
  'database cores busy',
  'statements a second',
  'heap for servers, MB',
  'shards',
]

/** How many each size needs, as cells of a table. */
export function carriedRows(costs = MEASURED, habits = ASSUMED): string[][] {
  return SIZES.map((size) => {
    const one = carry(size, costs, habits)
    return [
      one.crews,
      one.requestsASecond,
      one.coresBusy,
      one.processes,
      one.databaseCoresBusy,
      one.statementsASecond,
      one.heapMb,
      one.shards,
    ].map(cell)
  })
}

/** Two digits that count below ten, whole numbers above. */
function cell(value: number): string {
  return (value < 10 ? Number(value.toPrecision(2)) : Math.round(value)).toLocaleString('en')
}
