import type { Finding } from '../worked.ts'
import { finding } from '../worked.ts'
import type { Must, TankItem } from './item.ts'
import type { OrderTable } from './table.ts'
import { placeIn } from './table.ts'

interface Sides {
  readonly firstBefore: readonly OrderTable[]
  readonly secondBefore: readonly OrderTable[]
}

/** Which tables put one code before the other, and which do it the other way round. */
function sidesOf(a: TankItem, b: TankItem, tables: readonly OrderTable[]): Sides {
  const order = (table: OrderTable) => {
    const [first, second] = [placeIn(table, a.code), placeIn(table, b.code)]
    return first === null || second === null ? 0 : Math.sign(second - first)
  }
  return {
    firstBefore: tables.filter((table) => order(table) > 0),
    secondBefore: tables.filter((table) => order(table) < 0),
  }
}

/** A heads-up for every pair in this tank over which the sources differ and no label decides. */
export function differences(
  items: readonly TankItem[],
  musts: readonly Must[],
  tables: readonly OrderTable[],
): Finding[] {
  const byId = [...items].sort((a, b) => (a.id < b.id ? -1 : 1))
  return byId.flatMap((a, index) => byId.slice(index + 1).flatMap((b) => difference(a, b, musts, tables)))
}

function difference(
  a: TankItem,
  b: TankItem,
  musts: readonly Must[],
  tables: readonly OrderTable[],
): Finding[] {
  const decided = musts.some((must) => [must.first, must.second].every((id) => id === a.id || id === b.id))
  const { firstBefore, secondBefore } = sidesOf(a, b, tables)
  if (decided || firstBefore.length === 0 || secondBefore.length === 0) return []
  const names = (some: readonly OrderTable[]) => ({
    all: some.map((table) => ({ literal: table.source.short })),
  })
  return [
    finding('heads-up', 'order.sources-differ', {
      first: a.name,
      second: b.name,
      sources: names(firstBefore),
      others: names(secondBefore),
    }),
  ]
}
