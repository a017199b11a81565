import { say } from '#src/conversation/text.ts'
import { figuresFor, inUnitOf } from '#src/label/amounts.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, isSameDimension, quantity, subtract } from '#src/quantity/quantity.ts'
import type { AreaRate, Rate } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { isMassUnit } from '#src/quantity/units.ts'
import { recorded } from '../not-recorded.ts'
import type { Amount, ProductUsed } from '../product.ts'
import type { RecordDraft } from '../record.ts'
import type { Finding, RecordRule } from './rule.ts'
import { finding, lacking, productsOf } from './rule.ts'

const FORMER = '7 CFR 110.3 (2006)'
const FORM = 'University of Florida IFAS PI280, form for restricted-use records'

/** What the rate asks for on this ground or in this mix; null when a figure for that is lacking. */
export function expectedAmount(
  product: ProductUsed,
  record: RecordDraft,
  entry: LabelEntry | undefined,
): Amount | null {
  const rate = recorded(product.rate)
  const amount = recorded(product.amount)
  if (rate === undefined || amount === undefined) return null
  const expected = rate.kind === 'area' ? onGround(rate, amount, record, entry) : inMix(rate, record)
  if (expected === null || !isSameDimension(expected.unit, amount.unit)) return null
  return quantity(amountIn(expected, amount.unit), amount.unit)
}

function onGround(
  rate: AreaRate,
  amount: Amount,
  record: RecordDraft,
  entry: LabelEntry | undefined,
): Quantity | null {
  const area = recorded(record.treatedArea)
  const figures = entry === undefined ? {} : figuresFor(entry)
  const product = rate.of === 'product' ? rate : inUnitOf(rate, areaRate(0, amount.unit, rate.per), figures)
  if (area === undefined || product === null) return null
  return quantity(
    big(product.value).times(amountIn(area, rate.per.unit)).div(big(rate.per.value)),
    product.unit,
  )
}

function inMix(rate: Exclude<Rate, AreaRate>, record: RecordDraft): Quantity | null {
  const mix = recorded(record.totalMix)
  if (mix === undefined || rate.of !== 'product') return null
  if (rate.kind === 'share') {
    const fits = isMassUnit(mix.unit) === (rate.basis === 'w/w')
    return fits ? quantity(big(mix.value).times(rate.value).div(100), mix.unit) : null
  }
  if (isMassUnit(mix.unit)) return null
  return quantity(big(rate.value).times(amountIn(mix, rate.per.unit)).div(big(rate.per.value)), rate.unit)
}

const isNear = (ratio: Big, share: string) => compareNumbers(ratio.minus(1).abs(), share) <= 0

export const v16: RecordRule = {
  id: 'V16',
  source: `${FORMER}; ${FORM}; the 5 % is a proposal of this project`,
  check(record, context) {
    const differing = productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const amount = recorded(product.amount)
      if (amount !== undefined && compareNumbers(amount.value, 0) <= 0)
        return [finding('V16', say('record.v16-zero', { product: product.name }), { fields: ['amount'] })]
      const expected = expectedAmount(product, record, booked?.entry)
      if (amount === undefined || expected === null || big(expected.value).isZero()) return []
      if (isNear(big(amount.value).div(big(expected.value)), context.settings.amountShare)) return []
      const figures = { product: product.name, amount, expected }
      // Somebody who wrote why has answered the question; the numbers still stand side by side.
      const isExplained = recorded(record.notes) !== undefined
      return [
        finding('V16', say('record.v16-differs', figures), {
          weight: isExplained ? 'warn' : 'problem',
          fields: ['amount', 'rate', 'treatedArea', 'notes'],
        }),
      ]
    })
    return [...lacking('V16', ['amount', 'rate'], record, context), ...differing]
  },
}

/** Digits of rounding within which an amount is taken for a certain other one: typed figures have three or four. */
const SAME_SHARE = '0.01'

export const v17: RecordRule = {
  id: 'V17',
  source: `${FORMER}: the total quantity of the product, no water and no active ingredient; ${FORM}`,
  check(record, context) {
    const mix = recorded(record.totalMix)
    return productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const amount = recorded(product.amount)
      if (amount === undefined) return []
      const figures = { product: product.name, amount }
      if (mix !== undefined && isWholeMix(amount, mix, record))
        return [finding('V17', say('record.v17-mix', figures), { fields: ['amount'] })]
      const expected = expectedAmount(product, record, booked?.entry)
      if (expected === null || big(expected.value).isZero()) return []
      const ratio = big(amount.value).div(big(expected.value))
      const isActive = (recorded(product.actives) ?? []).some(
        ({ percent }) =>
          percent !== undefined &&
          compareNumbers(percent, 99) < 0 &&
          isNear(ratio.times(100).div(big(percent)), SAME_SHARE),
      )
      return isActive ? [finding('V17', say('record.v17-active', figures), { fields: ['amount'] })] : []
    })
  },
}

/** A diluted spray cannot be product through and through. */
function isWholeMix(amount: Amount, mix: Amount, record: RecordDraft): boolean {
  const kind = recorded(record.carrier)?.kind
  if (kind === undefined || kind === 'none' || !isSameDimension(amount.unit, mix.unit)) return false
  return compareNumbers(amount.value, amountIn(mix, amount.unit)) >= 0
}

export const v18: RecordRule = {
  id: 'V18',
  source: `${FORM}; that a fluid ounce is no ounce of weight is common practice, no source`,
  check(record, context) {
    return productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const form = recorded(product.form) ?? booked?.entry.form
      const amount = recorded(product.amount)
      if (form === undefined || amount === undefined || isMassUnit(amount.unit) === (form === 'dry'))
        return []
      const text = form === 'dry' ? 'record.v18-dry' : 'record.v18-liquid'
      return [finding('V18', say(text, { product: product.name, amount }), { fields: ['amount'] })]
    })
  },
}

export const v19: RecordRule = {
  id: 'V19',
  source: `${FORMER}; the tenth above the property is a proposal of this project`,
  check(record, context) {
    const absent = lacking('V19', ['area'], record, context)
    const area = recorded(record.treatedArea)
    if (area === undefined) return absent
    const fields = ['treatedArea']
    if (compareNumbers(area.value, 0) <= 0)
      return [...absent, finding('V19', say('record.v19-zero', { area }), { fields })]
    const { propertyFt2, settings } = context
    if (propertyFt2 === undefined) return absent
    const most = big(propertyFt2).times(big(settings.propertyShare).plus(1))
    if (compareNumbers(amountIn(area, 'ft2'), most) <= 0) return absent
    const property = { value: propertyFt2, unit: 'ft2' }
    return [...absent, finding('V19', say('record.v19-larger', { area, property }), { fields })]
  },
}

/** What is left of the mix after this site and the others; null when it is not known what was made or applied. */
export function leftoverOf(record: RecordDraft, drawnElsewhere: Quantity | undefined): Quantity | null {
  const made = recorded(record.mixMade)
  const drawn = recorded(record.mixDrawn)
  if (made === undefined || drawn === undefined) return null
  const here = subtract(made, drawn)
  return drawnElsewhere === undefined ? here : subtract(here, drawnElsewhere)
}

export const v29: RecordRule = {
  id: 'V29',
  source: 'Georgia Rules 40-21-5; Pesticide Environmental Stewardship, Excess mixture and water',
  check(record, context) {
    const absent = lacking('V29', ['leftover-fate'], record, context)
    const left = leftoverOf(record, context.drawnElsewhere)
    if (left === null) return absent
    if (compareNumbers(left.value, 0) < 0) return [...absent, overdrawn(record, left)]
    const written = recorded(record.leftover)
    if (written !== undefined && compareNumbers(amountIn(written, left.unit), left.value) === 0) return absent
    if (written === undefined && compareNumbers(left.value, 0) === 0) return absent
    const text =
      written === undefined ? say('record.v29-left', { left }) : say('record.v29-differs', { written, left })
    return [...absent, finding('V29', text, { fields: ['leftover', 'leftoverFate'] })]
  },
}

function overdrawn(record: RecordDraft, left: Quantity): Finding {
  const made = recorded(record.mixMade) ?? left
  const over = { value: big(left.value).abs().toFixed(), unit: left.unit }
  return finding('V29', say('record.v29-negative', { made, over }), { fields: ['mixDrawn', 'mixMade'] })
}
