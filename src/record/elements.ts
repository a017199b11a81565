import { big } from '#src/quantity/big.ts'
import type { ElementId } from './element-ids.ts'
import { isNotRecorded, recorded } from './not-recorded.ts'
import type { ProductUsed } from './product.ts'
import type { ApplicationRecord, RecordDraft } from './record.ts'
import type { Address, FreeText } from './values.ts'

/** How an element stands in a record: there, asked and not known, or not asked yet. */
export type Standing = 'there' | 'not-recorded' | 'absent'

type Draft = RecordDraft & Partial<Pick<ApplicationRecord, 'writtenBy'>>
/** Values that must all be there. An empty list means that the element has nothing to hold here. */
type Look = (draft: Draft) => readonly unknown[]

/** Characters of a description that a stranger can find a place by (proposal of this project). */
export const SPECIFIC_LENGTH = 8

/** Looks at every product of the tank; with no product at all the element is absent. */
const eachProduct =
  (look: (product: ProductUsed) => unknown): Look =>
  (draft) => {
    const products = recorded(draft.products)
    return products === undefined ? [draft.products] : products.map(look)
  }

const zipOf = (address: Address | undefined) => address?.zip
/** The first that is there, else the first that was asked for. */
const firstOf = (...values: readonly unknown[]) =>
  values.find((value) => recorded(value) !== undefined) ?? values.find((value) => value !== undefined)

const specificWords = (words: FreeText | undefined) =>
  words !== undefined && words.words.length >= SPECIFIC_LENGTH ? words : undefined

const isStill = (draft: Draft) =>
  (recorded(draft.windSpeed) ?? []).every(({ value }) => big(value.value).isZero())

const LOOKS: Readonly<Record<ElementId, Look>> = {
  date: ({ date }) => [date],
  'start-time': ({ startedAt }) => [startedAt],
  'end-time': ({ endedAt }) => [endedAt],
  'customer-name': ({ customerName }) => [customerName],
  'customer-address': ({ customerAddress }) => [customerAddress],
  place: ({ placeAddress, placeMark, placeWords }) => [firstOf(placeAddress, placeMark, placeWords)],
  'place-zip': ({ placeAddress, customerAddress }) => {
    const known = firstOf(placeAddress, customerAddress)
    const zip = firstOf(zipOf(recorded(placeAddress)), zipOf(recorded(customerAddress)))
    return [recorded(known) === undefined ? known : zip]
  },
  'place-specific': ({ placeMark, placeWords }) => [
    firstOf(placeMark, recorded(placeWords) === undefined ? placeWords : specificWords(recorded(placeWords))),
  ],
  county: ({ county }) => [county],
  site: ({ use, turfs }) => [use, turfs],
  area: ({ treatedArea }) => [treatedArea],
  extent: ({ placeWords }) => [placeWords],
  target: ({ targets }) => [targets],
  product: eachProduct(({ name }) => name),
  registration: eachProduct(({ registration, exempt25b }) => registration ?? exempt25b),
  'state-number': eachProduct(({ stateNumber }) => stateNumber),
  actives: eachProduct(({ actives }) => actives),
  amount: eachProduct(({ amount }) => amount),
  rate: eachProduct(({ rate }) => rate),
  concentration: (draft) => [
    firstOf(draft.recipe, draft.totalMix),
    ...eachProduct(({ amount, rate }) => firstOf(amount, rate))(draft),
  ],
  // Of several products in one tank each amount stands beside the whole, which tells the same.
  recipe: (draft) =>
    (recorded(draft.products) ?? []).length > 1 && draft.recipe === undefined
      ? [draft.totalMix, draft.carrierAmount, ...eachProduct(({ amount }) => amount)(draft)]
      : [draft.recipe],
  'carrier-kind': ({ carrier }) => [carrier],
  'carrier-amount': ({ carrierAmount, recipe }) => [firstOf(carrierAmount, recipe)],
  'total-mix': ({ totalMix }) => [totalMix],
  adjuvants: ({ adjuvants }) => [adjuvants],
  method: ({ method }) => [method],
  droplets: ({ droplets, nozzle }) => [droplets, nozzle],
  'wind-speed': ({ windSpeed }) => [windSpeed],
  'wind-from': (draft) => (recorded(draft.windSpeed) !== undefined && isStill(draft) ? [] : [draft.windFrom]),
  temperature: ({ temperature }) => [temperature],
  humidity: ({ humidityPercent }) => [humidityPercent],
  rain: ({ rain }) => [rain],
  inversion: ({ inversion }) => [inversion],
  applicator: ({ applicator }) => [applicator],
  license: ({ license }) => [license],
  supervisor: ({ supervisor }) => [supervisor],
  training: ({ training }) => [training],
  helpers: ({ helpers }) => [helpers],
  company: ({ company }) => [company],
  'company-address': ({ companyAddress }) => [companyAddress],
  ppe: ({ ppe }) => [ppe],
  'keep-off': ({ keepOff }) => [keepOff],
  're-entry': ({ keepOffUntil }) => [keepOffUntil],
  'customer-told': ({ customerTold }) => [customerTold],
  posting: ({ posting }) => [posting],
  notices: ({ notices }) => [notices],
  unusual: ({ unusual }) => [unusual],
  'mixing-place': ({ mixingPlace }) => [mixingPlace],
  'leftover-fate': ({ leftoverFate }) => [leftoverFate],
  'site-order': ({ siteOrder }) => [siteOrder],
  fertilizer: ({ fertilizer }) => [fertilizer],
  // The store writes it, so that a draft never lacks it.
  'written-by': () => [],
}

/** How an element stands. What was taken out as personal data still counts: it was there. */
export function standingOf(element: ElementId, draft: Draft): Standing {
  const values = LOOKS[element](draft)
  if (values.some((value) => value === undefined)) return 'absent'
  return values.some(isNotRecorded) ? 'not-recorded' : 'there'
}
