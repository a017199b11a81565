import type { Form } from '#src/label/entry.ts'
import { isMassUnit } from '#src/quantity/units.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { StockMovement } from '#src/store/stock.ts'
import { type OnHand, onHand } from './on-hand.ts'

/** What a crew has of every product that ever came in, was counted or used, by name. */
export async function allOnHand(store: CrewStore): Promise<readonly OnHand[]> {
  const movements = await store.stock.list()
  const names = [...new Set(movements.map(({ product }) => product))].sort()
  const found: OnHand[] = []
  for (const name of names) {
    const own = movements.filter(({ product }) => product === name)
    found.push(onHand(name, own, await formOf(name, own, store)))
  }
  return found
}

/** What a crew has of one product. */
export async function onHandOf(product: string, store: CrewStore): Promise<OnHand> {
  const movements = await store.stock.list(product)
  return onHand(product, movements, await formOf(product, movements, store))
}

/** Dry or liquid by the label book; a product that is not in it any more is what it was measured as. */
async function formOf(product: string, movements: readonly StockMovement[], store: CrewStore): Promise<Form> {
  const entry = await store.labels.findByName(product)
  if (entry?.live) return entry.live.body.form
  const [first] = movements
  return first === undefined || isMassUnit(first.amount.unit) ? 'dry' : 'liquid'
}
