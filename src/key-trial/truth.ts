import { plantGroup } from '#src/key/model.ts'
import type { Cell, KeyData, Taxon } from '#src/key/schema.ts'
import { pick } from './random.ts'

/** How plants really look in a trial: a cell for each plant and character. */
export type Truth = ReadonlyMap<string, Readonly<Record<string, Cell>>>

/** The table itself as the truth, which flatters the key. */
export function plainTruth(key: KeyData): Truth {
  return new Map(key.taxa.map((taxon) => [taxon.id, taxon.cells]))
}

/** How far printed ranges are moved, up or down. */
const MOVED = 0.3

/**
 * A truth that differs from the table: half of the cells from memory are dropped (the plant shows whatever plants of
 * its group show), the other half replaced by the cell of another plant of the group; every range is moved by 30 %.
 */
export function disturbedTruth(key: KeyData, random: () => number): Truth {
  const mates = matesOf(key)
  return new Map(
    key.taxa.map((taxon) => {
      const cells = Object.entries(taxon.cells).map(([id, cell]): [string, Cell] => {
        const others = mates(taxon, id)
        return [id, disturbed(cell, others, random)]
      })
      return [taxon.id, Object.fromEntries(cells)]
    }),
  )
}

function disturbed(cell: Cell, others: readonly Cell[], random: () => number): Cell {
  if (cell.kind === 'blank' || cell.kind === 'na') return cell
  const moved = cell.kind === 'range' ? movedRange(cell, random) : cell
  if (!cell.memory) return moved
  return random() < 0.5 ? { kind: 'blank' } : (pick(others, random) ?? moved)
}

function movedRange(cell: Extract<Cell, { kind: 'range' }>, random: () => number): Cell {
  const factor = random() < 0.5 ? 1 - MOVED : 1 + MOVED
  return { ...cell, from: cell.from * factor, to: cell.to * factor }
}

/** The filled cells of the other plants of the same plant group. */
export function matesOf(key: KeyData): (taxon: Taxon, character: string) => Cell[] {
  return (taxon, character) =>
    key.taxa
      .filter((other) => other !== taxon && plantGroup(other) === plantGroup(taxon))
      .flatMap((other) => {
        const cell = other.cells[character]
        return cell !== undefined && cell.kind !== 'blank' && cell.kind !== 'na' ? [cell] : []
      })
}
