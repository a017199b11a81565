import type { Calculated, Finding, Step } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import { differences } from './differ.ts'
import type { LabelPair, Must, TankItem } from './item.ts'
import { spellOut } from './item.ts'
import type { Placed } from './place.ts'
import { placeAll } from './place.ts'
import type { Doing, OrderTable } from './table.ts'
import { placeIn } from './table.ts'

export interface OrderedItem {
  readonly item: TankItem
  /** The table that placed it. */
  readonly source: OrderTable['source']
  /** What is done once it is in, said by sayDoing(). */
  readonly after: readonly Doing[]
  /** A label put it before or after something, against the table. */
  readonly movedBy: readonly string[]
}

export interface TankOrder {
  readonly table: OrderTable
  /** Share of the tank to fill first. */
  readonly fill: OrderTable['fill']
  readonly items: readonly OrderedItem[]
}

/**
 * The order in which a tank is filled. Labels come first: every pair that a label orders is kept, and pairs that
 * contradict each other are reported instead of guessed. The rest follows the first table.
 * @param tables the crew's own choice first; the others place what it does not know and are compared with it
 */
export function orderTank(
  items: readonly TankItem[],
  pairs: readonly LabelPair[],
  tables: readonly OrderTable[],
): Calculated<TankOrder> {
  if (new Set(items.map((item) => item.id)).size < items.length)
    throw new RangeError('Cannot order a tank with two items of one id')
  const [table] = tables
  if (table === undefined) throw new RangeError('Cannot order a tank without a table')
  const musts = spellOut(pairs, items)
  const { placed, homeless } = placeAll(items, tables)
  const problems = [...granules(items), ...homeless.filter((one) => one.code !== 'G').map(noPlace)]
  if (problems.length > 0) return blocked(...problems)
  const sorted = sortBy(placed, musts)
  if (!('order' in sorted)) return blocked(contradiction(sorted.circle, items))
  const ordered = sorted.order.map((one, index) => describe(one, sorted.order[index + 1], placed, musts))
  const findings = [
    ...borrowed(ordered, table),
    ...differences(items, musts, tables),
    ...moved(placed, sorted.order, musts),
  ]
  return worked({ table, fill: table.fill, items: ordered }, steps(table, ordered, musts), findings)
}

/** What is done after a step or at the end, as a sentence. */
export function sayDoing(doing: Doing): Step {
  return step(`order.do.${doing}`)
}

type Sorted = { readonly order: readonly Placed[] } | { readonly circle: readonly Must[] }

/** Takes again and again the earliest item that no label holds back. */
function sortBy(placed: readonly Placed[], musts: readonly Must[]): Sorted {
  const order: Placed[] = []
  let waiting = [...placed]
  while (waiting.length > 0) {
    const ids = new Set(waiting.map((one) => one.item.id))
    const held = new Set(musts.filter((must) => ids.has(must.first)).map((must) => must.second))
    const next = waiting.find((one) => !held.has(one.item.id))
    if (next === undefined) return { circle: findCircle(ids, musts) }
    order.push(next)
    waiting = waiting.filter((one) => one !== next)
  }
  return { order }
}

/** Among items that all wait for another, going back from one to what it waits for must come round again. */
function findCircle(waiting: ReadonlySet<string>, musts: readonly Must[]): Must[] {
  const [start] = waiting
  const path: Must[] = []
  let at = start
  for (;;) {
    const must = musts.find((one) => one.second === at && waiting.has(one.first))
    if (must === undefined) throw new RangeError('Cannot find a circle where nothing waits')
    path.unshift(must)
    const closed = path.findLastIndex((one) => one.second === must.first)
    if (closed >= 0) return path.slice(0, closed + 1)
    at = must.first
  }
}

function nameOf(items: readonly TankItem[], id: string): string {
  return items.find((item) => item.id === id)?.name ?? id
}

function contradiction(circle: readonly Must[], items: readonly TankItem[]): Finding {
  const pairs = circle.map((must) => ({
    say: 'order.pair',
    with: { first: nameOf(items, must.first), second: nameOf(items, must.second), by: must.pair.by },
  }))
  return finding('refusal', 'order.contradiction', { pairs: { all: pairs } })
}

function granules(items: readonly TankItem[]): Finding[] {
  return items
    .filter((item) => item.code === 'G')
    .map((item) => finding('refusal', 'order.granule', { name: item.name }))
}

function noPlace(item: TankItem): Finding {
  return finding('question', 'order.no-place', { name: item.name, code: item.code })
}

function describe(
  one: Placed,
  next: Placed | undefined,
  placed: readonly Placed[],
  musts: readonly Must[],
): OrderedItem {
  const own = stepOf(one)
  const goesOn = next !== undefined && stepOf(next) === own
  const against = musts.filter(
    (must) => [must.first, must.second].includes(one.item.id) && isAgainst(must, placed),
  )
  return {
    item: one.item,
    source: one.table.source,
    after: goesOn ? [] : (own?.after ?? []),
    movedBy: [...new Set(against.map((must) => must.pair.by))],
  }
}

function stepOf(one: Placed) {
  const place = placeIn(one.table, one.item.code)
  return place === null ? undefined : one.table.steps[place]
}

/** Does a label say the opposite of the published order? Items of one step have no order to go against. */
function isAgainst(must: Must, placed: readonly Placed[]): boolean {
  const first = placed.findIndex((one) => one.item.id === must.first)
  const second = placed.findIndex((one) => one.item.id === must.second)
  const [a, b] = [placed[first], placed[second]]
  return first > second && a !== undefined && b !== undefined && stepOf(a) !== stepOf(b)
}

function borrowed(ordered: readonly OrderedItem[], table: OrderTable): Finding[] {
  return ordered
    .filter((one) => one.source !== table.source)
    .map((one) =>
      finding('heads-up', 'order.from-other-source', {
        name: one.item.name,
        code: one.item.code,
        table: { literal: table.source.short },
        source: { literal: one.source.short },
      }),
    )
}

/** Pairs that stand against the table though no label speaks of them: pushed aside by one that does. */
function moved(placed: readonly Placed[], order: readonly Placed[], musts: readonly Must[]): Finding[] {
  return placed.flatMap((first, index) =>
    placed.slice(index + 1).flatMap((second) => {
      if (stepOf(first) === stepOf(second) || order.indexOf(first) < order.indexOf(second)) return []
      const said = musts.some((must) => must.first === second.item.id && must.second === first.item.id)
      if (said) return []
      return [finding('heads-up', 'order.pushed-aside', { first: second.item.name, second: first.item.name })]
    }),
  )
}

function steps(table: OrderTable, ordered: readonly OrderedItem[], musts: readonly Must[]): Step[] {
  const names = ordered.map((one) => one.item)
  const labels = musts.map((must) =>
    step('order.label-says', {
      first: nameOf(names, must.first),
      second: nameOf(names, must.second),
      by: must.pair.by,
    }),
  )
  return [
    step('order.by-table', { source: { literal: table.source.name } }),
    ...labels,
    step('order.result', { names: { all: ordered.map((one) => one.item.name) } }),
  ]
}
