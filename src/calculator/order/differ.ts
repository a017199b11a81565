import type { Finding } from '../worked.ts'
import { finding } from '../worked.ts'
import type { Must, TankItem } from './item.ts'
import type { OrderTable } from './table.ts'
import { placeIn } from './table.ts'

interface Sides {
  readonly firstBefore: readonly OrderTable[]
  readonly thenBefore: readonly OrderTable[]
}

/** Which tables put one code before the other, and which do it the other way round. */
function sidesOf(a: TankItem, b: TankItem, tables: readonly OrderTable[]): Sides {
  const order = (table: OrderTable) => {
    const [first, then] = [placeIn(table, a.code), placeIn(table, b.code)]
    return first === null || then === null ? 0 : Math.sign(then - first)
  }
  return {
    firstBefore: tables.filter((table) => order(table) > 0),
    thenBefore: tables.filter((table) => order(table) < 0),
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
  const decided = musts.some((must) => [must.first, must.then].every((id) => id === a.id || id === b.id))
  const { firstBefore, thenBefore } = sidesOf(a, b, tables)
  if (decided || firstBefore.length === 0 || thenBefore.length === 0) return []
  const names = (some: readonly OrderTable[]) => ({ all: some.map((table) => table.source.short) })
  return [
    finding('heads-up', 'order.sources-differ', {
      first: a.name,
      then: b.name,
      sources: names(firstBefore),
      others: names(thenBefore),
    }),
  ]
}
