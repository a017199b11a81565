import type { Form } from '#src/label/entry.ts'
import { isZero } from '#src/quantity/quantity.ts'
import { isMassUnit } from '#src/quantity/units.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { StockMovement } from '#src/store/stock.ts'
import { fitsForm, newest, type OnHand, onHand } from './on-hand.ts'

/** What a crew has of every product that ever came in, was counted or used, by name. */
export async function allOnHand(store: CrewStore): Promise<readonly OnHand[]> {
  const found: OnHand[] = []
  for (const name of await store.stock.products()) found.push(await onHandOf(name, store))
  return found
}

/** What a crew has of one product. What was used before it was counted last is in that count, and stays unread. */
export async function onHandOf(product: string, store: CrewStore): Promise<OnHand> {
  const entered = await store.stock.entered(product)
  const form = await formOf(product, entered, store)
  const counted = newest(entered.filter(({ kind, amount }) => kind === 'count' && fitsForm(amount, form)))
  const used = await store.stock.usedAfter(product, counted?.atMs ?? null)
  return onHand(product, [...entered, ...used], form)
}

/** May the leads want to hear when this product runs low? Without a mark nothing needs to be reckoned. */
export async function isWatched(product: string, store: CrewStore): Promise<boolean> {
  const entered = await store.stock.entered(product)
  return entered.some(({ kind, amount }) => kind === 'low' && !isZero(amount))
}

/** Dry or liquid by the label book; a product that is not in it any more is what it was measured as. */
async function formOf(product: string, entered: readonly StockMovement[], store: CrewStore): Promise<Form> {
  const entry = await store.labels.findByName(product)
  if (entry?.live) return entry.live.body.form
  const [first] = entered.length > 0 ? entered : await store.stock.latest(product, 1)
  return first === undefined || isMassUnit(first.amount.unit) ? 'dry' : 'liquid'
}
