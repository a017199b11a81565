import type { TankItem } from '#src/calculator/order/item.ts'
import { type OrderedItem, orderTank, sayDoing, type TankOrder } from '#src/calculator/order/order-tank.ts'
import { type Doing, loadOrderTables, type OrderTable, placeIn } from '#src/calculator/order/table.ts'
import type { Calculated } from '#src/calculator/worked.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { type Param, say, type Text } from '#src/conversation/text.ts'
import { readData } from '#src/project.ts'
import { codeOfAdjuvant, pairsOf } from './mentions.ts'
import type { Part } from './part.ts'

let tables: readonly OrderTable[] | null = null
const published = () => {
  tables ??= loadOrderTables(readData)
  return tables
}

const idOf = (index: number) => `product-${index + 1}`
const ADJUVANT = 'with-'

export interface Ordered {
  readonly order: Calculated<TankOrder>
  /** Adjuvants of which nobody has said what they are: their own label says when they go in. */
  readonly unplaced: readonly string[]
}

/** The order in which this tank is filled: labels first, then the first published order that knows the codes. */
export function orderOf(parts: readonly Part[], adjuvants: readonly string[]): Ordered {
  const products = parts.map(({ index, named }): TankItem => {
    const { name, formulation } = named.product.live.body
    return { id: idOf(index), name, code: formulation }
  })
  const helpers = adjuvants.flatMap((name): TankItem[] => {
    const code = codeOfAdjuvant(name)
    return code === null ? [] : [{ id: `${ADJUVANT}${name}`, name, code }]
  })
  const items = [...products, ...helpers]
  const pairs = parts.flatMap(({ index, named }) => pairsOf(named.product.live.body, idOf(index), items))
  return {
    order: orderTank(items, pairs, published()),
    unplaced: adjuvants.filter((name) => codeOfAdjuvant(name) === null),
  }
}

const sayInTank = (doing: Doing) => sayStep(sayDoing(doing))

/** The steps as they are done: water, each product with what is done after it, then up to the mark. */
export function orderLines(
  { table, fill, items }: TankOrder,
  amounts: ReadonlyMap<string, Param>,
  last: Text,
  sayDone: (doing: Doing) => Text = sayInTank,
): Text[] {
  // What goes on from then on, as agitating does, is told once.
  const told = new Set<Doing>()
  const isNew = (doing: Doing) => {
    const known = isBefore(doing) || told.has(doing)
    told.add(doing)
    return !known
  }
  const steps: Text[] = [
    fill === null
      ? say('mixing.tank.some-water')
      : say('mixing.tank.water', { least: partText(fill.least), most: partText(fill.most) }),
    ...items.map((one) =>
      [addLine(one, table, { amounts, sayDone }), ...one.after.filter(isNew).map(sayDone)].reduce(
        (step, then) => say('mixing.tank.then', { step, then }),
      ),
    ),
    ...table.last.filter(isNew).map(sayDone),
    last,
  ]
  return steps.map((step, at) => say('mixing.tank.step', { number: at + 1, step }))
}

/** A slurry is made before the product goes in, of each product of the step. */
function addLine(
  { item, source }: OrderedItem,
  table: OrderTable,
  {
    amounts,
    sayDone,
  }: { readonly amounts: ReadonlyMap<string, Param>; readonly sayDone: (doing: Doing) => Text },
): Text {
  const by = published().find((one) => one.source.short === source.short) ?? table
  const place = placeIn(by, item.code)
  const how = place === null ? undefined : by.steps[place]?.after.find(isBefore)
  const figures = { amount: amounts.get(item.name) ?? item.name, name: item.name }
  return how === undefined
    ? say('mixing.tank.add', figures)
    : say('mixing.tank.add-how', { ...figures, how: sayDone(how) })
}

const isBefore = (doing: Doing) => doing.startsWith('slurry')

const partText = ({ parts, of }: { readonly parts: number; readonly of: number }) => ({
  literal: `${parts}/${of}`,
})
