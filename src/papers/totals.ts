import { add, type Quantity } from '#src/quantity/quantity.ts'
import { dimensionOf } from '#src/quantity/units.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { printTyped } from '#src/records/print-value.ts'
import type { PaperRecord } from './source.ts'

/** What went on one site of one product, over all standing records of a paper. */
export interface Total {
  readonly product: string
  readonly registration: string
  readonly site: string
  readonly jobs: number
  /** One sum for weights and one for volumes, each in the unit that came first. */
  readonly amounts: readonly Quantity[]
  readonly areas: readonly Quantity[]
  /** Jobs whose amount nobody wrote down: the sum is at least this, not all. */
  readonly withoutAmount: number
}

/** Adds up while records go by: as many figures as there are products on sites, however many records. */
export function totalling(): {
  readonly count: (record: PaperRecord) => void
  readonly totals: () => readonly Total[]
} {
  const found = new Map<string, Total>()

  function countProduct(record: PaperRecord & { kind: 'read' }, at: number): void {
    const used = (recorded(record.current.record.products) ?? [])[at]
    if (used === undefined) return
    const product = printTyped(used.name)
    const registration = recorded(used.registration) ?? ''
    const site = printTyped(record.site)
    const key = JSON.stringify([product, registration, site])
    const before = found.get(key) ?? {
      product,
      registration: printTyped(registration),
      site,
      jobs: 0,
      amounts: [],
      areas: [],
      withoutAmount: 0,
    }
    const amount = recorded(used.amount)
    const area = recorded(record.current.record.treatedArea)
    found.set(key, {
      ...before,
      jobs: before.jobs + 1,
      amounts: amount === undefined ? before.amounts : withAdded(before.amounts, amount),
      areas: area === undefined ? before.areas : withAdded(before.areas, area),
      withoutAmount: before.withoutAmount + (amount === undefined ? 1 : 0),
    })
  }

  return {
    count(record) {
      if (record.kind !== 'read' || record.row.voidedAtMs !== null) return
      const used = recorded(record.current.record.products) ?? []
      for (const at of used.keys()) countProduct(record, at)
    },
    totals: () =>
      [...found.values()].sort(
        (a, b) => a.product.localeCompare(b.product, 'en') || a.site.localeCompare(b.site, 'en'),
      ),
  }
}

function withAdded(sums: readonly Quantity[], more: Quantity): readonly Quantity[] {
  const at = sums.findIndex(({ unit }) => dimensionOf(unit) === dimensionOf(more.unit))
  const same = sums[at]
  return same === undefined ? [...sums, more] : sums.with(at, add(same, more))
}
