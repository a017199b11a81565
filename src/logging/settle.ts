import type { Tools } from '#src/desk/command.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { ProductUsed } from '#src/record/product.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import type { BookEntry } from '#src/store/labels.ts'
import type { KeptMix } from '#src/store/mixes.ts'
import { productOf } from './from-book.ts'
import { drawFrom, drawnFrom } from './from-mix.ts'
import { withMixedGround } from './ground.ts'

/** Puts in what follows from what was said: label facts of a product, and amounts from what was drawn of the mix. */
export async function settle(
  before: RecordDraft,
  draft: RecordDraft,
  mix: KeptMix | null,
  tools: Tools,
  /** The record itself, when it is amended: what it drew is drawn anew. */
  own?: number,
): Promise<RecordDraft> {
  const grounded = own === undefined ? await withMixedGround(draft, mix, tools) : draft
  const withBook = await withKeepOff(await fillProducts(grounded, tools), tools)
  const drawn = recorded(withBook.mixDrawn)
  if (mix === null || drawn === undefined) return withBook
  const was = recorded(before.mixDrawn)
  if (was !== undefined && was.value === drawn.value && was.unit === drawn.unit) return withBook
  return { ...withBook, ...drawFrom(mix, withBook, drawn, await drawnFrom(mix, tools.store, own)) }
}

/** How long to keep off, as the labels of the tank print it. */
async function withKeepOff(draft: RecordDraft, { store }: Tools): Promise<RecordDraft> {
  if (draft.keepOff !== undefined) return draft
  const words: string[] = []
  for (const { revisionId } of recorded(draft.products) ?? []) {
    const revision = revisionId === undefined ? undefined : await store.labels.getRevision(revisionId)
    const said = revision?.body.safety.keepOff
    if (said !== undefined && !words.includes(said)) words.push(said)
  }
  const keepOff = words.join(' / ')
  return keepOff === '' ? draft : { ...draft, keepOff: keepOff.slice(0, 200) }
}

/** A product that was only named gets everything that the label book says of it. */
async function fillProducts(draft: RecordDraft, { store }: Tools): Promise<RecordDraft> {
  const products = recorded(draft.products)
  if (products === undefined || products.every(isFilled)) return draft
  const filled: ProductUsed[] = []
  for (const product of products) {
    const entry = isFilled(product) ? undefined : await entryNamed(product.name, store)
    filled.push(entry?.live == null ? product : { ...productOf(entry.live, null), ...saidOf(product) })
  }
  return { ...draft, products: filled }
}

/** By its name, however its letters are written. A whole book is read only as names: its entries are long. */
async function entryNamed(typed: string, { labels }: CrewStore): Promise<BookEntry | undefined> {
  const exact = await labels.findByName(typed)
  if (exact !== undefined) return exact
  const name = (await labels.names()).find((one) => one.toLowerCase() === typed.toLowerCase())
  return name === undefined ? undefined : labels.findByName(name)
}

const isFilled = ({ entryId }: ProductUsed) => entryId !== undefined

/** What was said of it stays, the name as the book writes it. */
function saidOf({ amount, rate, registration }: ProductUsed): Partial<ProductUsed> {
  return {
    ...(amount === undefined ? {} : { amount }),
    ...(rate === undefined ? {} : { rate }),
    ...(registration === undefined ? {} : { registration }),
  }
}
