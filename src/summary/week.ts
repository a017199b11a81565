import type { Tools } from '#src/desk/command.ts'
import { inForce } from '#src/notices/in-force.ts'
import { sumOf } from '#src/quantity/big.ts'
import { amountIn, convert, isSameDimension, type Quantity, quantity } from '#src/quantity/quantity.ts'
import type { Head } from '#src/record/chain.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { Amount } from '#src/record/product.ts'
import { recordPages, untilNow } from '#src/records/pages.ts'
import { isSound } from '#src/records/read-record.ts'
import { allOnHand } from '#src/stock/book.ts'
import type { OnHand } from '#src/stock/on-hand.ts'
import type { RecordRow } from '#src/store/records.ts'

/** What a crew has done in some days, and what stands open. */
export interface Week {
  readonly from: string
  readonly to: string
  readonly jobs: number
  /** All treated ground, and of how many jobs the area is not known. */
  readonly area: Quantity
  readonly withoutArea: number
  readonly products: readonly { readonly product: string; readonly amount: Quantity }[]
  readonly drafts: readonly { readonly name: string; readonly count: number }[]
  readonly incomplete: readonly number[]
  readonly late: readonly number[]
  readonly incidents: number
  readonly low: readonly OnHand[]
  readonly overdue: number
  /** The newest link of the chain; null while nothing is kept. */
  readonly head: Head | null
}

const MOST_DRAFTS = 25
/** Numbers beyond these are counted only. */
const MOST_LISTED = 500

/** Sums up the days from one to another, both in, and what is open now. */
export async function weekOf(from: string, to: string, tools: Tools): Promise<Week> {
  const { store, crew } = tools
  const until = await untilNow(store)
  const rows: RecordRow[] = []
  const used: { readonly product: string; readonly amount: Amount }[] = []
  const areas: Quantity[] = []
  for await (const page of recordPages((work) => work(store), { from, to }, { until }))
    for (const found of page.records) {
      if (found.row.voidedAtMs !== null) continue
      rows.push(found.row)
      if (!isSound(found)) continue
      const { treatedArea, products } = found.current.record
      const area = recorded(treatedArea)
      if (area !== undefined) areas.push(area)
      for (const { name, amount } of recorded(products) ?? []) {
        const known = recorded(amount)
        if (known !== undefined) used.push({ product: name, amount: known })
      }
    }
  const unit = crew.settings.units === 'metric' ? 'm2' : 'ft2'
  const incomplete = await store.records.listNewest({ complete: false }, MOST_LISTED)
  return {
    from,
    to,
    jobs: rows.length,
    area: quantity(sumOf(areas.map((one) => amountIn(one, unit))), unit),
    withoutArea: rows.length - areas.length,
    products: totalsOf(used),
    drafts: await draftsOf(tools),
    incomplete: numbersOf(incomplete.filter(({ voidedAtMs }) => voidedAtMs === null)),
    late: numbersOf(rows.filter(({ late }) => late)),
    incidents: (await store.incidents.listOpen()).length,
    low: (await allOnHand(store)).filter(({ isLow, isOver }) => isLow || isOver),
    overdue: (await inForce({}, tools)).filter(({ isOverdue }) => isOverdue).length,
    head: until.head,
  }
}

/** Is there anything that a lead would want to hear of? */
export function isQuiet(week: Week): boolean {
  const { jobs, drafts, incomplete, incidents, low, overdue } = week
  return jobs + drafts.length + incomplete.length + incidents + low.length + overdue === 0
}

const numbersOf = (rows: readonly RecordRow[]) => rows.map(({ number }) => number).sort((a, b) => a - b)

async function draftsOf({ store }: Tools): Promise<Week['drafts']> {
  const found: { readonly name: string; readonly count: number }[] = []
  for (const { id, name } of await store.people.list()) {
    const count = (await store.drafts.listOpen(id, MOST_DRAFTS)).length
    if (count > 0) found.push({ name, count })
  }
  return found
}

/** One sum for each product; a weight and a volume of the same product are two. */
export function totalsOf(
  used: readonly { readonly product: string; readonly amount: Quantity }[],
): Week['products'] {
  const totals: { readonly product: string; readonly amounts: Quantity[] }[] = []
  for (const { product, amount } of used) {
    const same = totals.find(
      (one) =>
        one.product === product &&
        one.amounts[0] !== undefined &&
        isSameDimension(one.amounts[0].unit, amount.unit),
    )
    if (same === undefined) totals.push({ product, amounts: [amount] })
    else same.amounts.push(amount)
  }
  return totals
    .flatMap(({ product, amounts: [first, ...others] }) => {
      if (first === undefined) return []
      const base = isSameDimension(first.unit, 'g') ? 'g' : 'mL'
      const sum = sumOf([first, ...others].map((one) => amountIn(one, base)))
      return [{ product, amount: convert(quantity(sum, base), first.unit) }]
    })
    .sort((a, b) => a.product.localeCompare(b.product, 'en'))
}
