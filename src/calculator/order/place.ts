import type { TankItem } from './item.ts'
import type { OrderTable } from './table.ts'
import { placeIn } from './table.ts'

/** An item with the table that gave it its place. */
export interface Placed {
  readonly item: TankItem
  readonly table: OrderTable
}

export interface Placing {
  readonly placed: readonly Placed[]
  /** Items of which no table says anything. */
  readonly homeless: readonly TankItem[]
}

/**
 * The published order of the items before any label has its say: by step of the chosen table, then by id, so that it
 * never depends on the order of typing. What the table does not know is put where the next table that knows it is
 * contradicted least.
 */
export function placeAll(items: readonly TankItem[], tables: readonly OrderTable[]): Placing {
  const [main, ...others] = tables
  if (main === undefined) throw new RangeError('Cannot order a tank without a table')
  const byId = [...items].sort((a, b) => (a.id < b.id ? -1 : 1))
  const known = byId.filter((item) => placeIn(main, item.code) !== null)
  known.sort((a, b) => (placeIn(main, a.code) ?? 0) - (placeIn(main, b.code) ?? 0))
  let placed: Placed[] = known.map((item) => ({ item, table: main }))
  const homeless: TankItem[] = []
  for (const item of byId.filter((one) => !known.includes(one))) {
    const table = others.find((one) => placeIn(one, item.code) !== null)
    if (table === undefined) homeless.push(item)
    else placed = insert(placed, { item, table })
  }
  return { placed, homeless }
}

function insert(placed: readonly Placed[], one: Placed): Placed[] {
  const costs = Array.from({ length: placed.length + 1 }, (_, at) => contradictions(placed, one, at))
  const at = costs.indexOf(Math.min(...costs))
  return [...placed.slice(0, at), one, ...placed.slice(at)]
}

/** How many pairs the item's table would order otherwise if it stood there. */
function contradictions(placed: readonly Placed[], one: Placed, at: number): number {
  const own = placeIn(one.table, one.item.code) ?? 0
  return placed.filter(({ item }, index) => {
    const other = placeIn(one.table, item.code)
    if (other === null || other === own) return false
    return index < at ? other > own : other < own
  }).length
}
