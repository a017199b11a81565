import { say } from '#src/conversation/text.ts'
import { daysBetween } from '#src/label/day.ts'
import { readLocalNeedState, readRegistrationNumber } from '#src/label/registration.ts'
import { compareNumbers, sumOf } from '#src/quantity/big.ts'
import { recorded } from '../not-recorded.ts'
import type { RecordDraft } from '../record.ts'
import type { Finding, RecordRule } from './rule.ts'
import { finding, lacking, productsOf } from './rule.ts'

const DPR = "California Department of Pesticide Regulation, What's in a Registration Number"
const fields = ['registration']

export const v4: RecordRule = {
  id: 'V4',
  source: '7 CFR 110.3 (2006); 40 CFR 156.10',
  check(record, context) {
    const named = productsOf(record, context).flatMap(({ product, booked }): Finding[] =>
      booked === undefined
        ? [finding('V4', say('record.v4-not-in-book', { product: product.name }), { fields: ['product'] })]
        : [],
    )
    const asked = ['product', 'registration', 'actives'] as const
    return [...lacking('V4', asked, record, context), ...named, ...aboveWhole(record)]
  },
}

/** All that an ingredient statement gives in percent cannot be more than the whole. */
function aboveWhole(record: RecordDraft): Finding[] {
  return (recorded(record.products) ?? []).flatMap((product) => {
    const percents = (recorded(product.actives) ?? []).flatMap(({ percent }) => percent ?? [])
    const total = sumOf(percents)
    if (compareNumbers(total, 100) <= 0) return []
    const figures = { product: product.name, total: { value: total.toFixed(), unit: '%' } }
    return [finding('V4', say('record.v4-above-100', figures), { fields: ['product'] })]
  })
}

/** The number as it is compared: a California revision says nothing about which product it is. */
function sameNumber(a: string, b: string): boolean {
  const [first, second] = [readRegistrationNumber(a), readRegistrationNumber(b)]
  if (!first.ok || !second.ok) return a.trim() === b.trim()
  const key = ({ company, product, distributor }: typeof first.value) =>
    `${Number(company)}-${product}-${distributor ?? ''}`
  return key(first.value) === key(second.value)
}

export const v5: RecordRule = {
  id: 'V5',
  source: `${DPR}; EPA Label Review Manual ch. 14 (Nov 2012)`,
  check(record, context) {
    return productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const number = recorded(product.registration)
      if (number === undefined) return []
      const read = readRegistrationNumber(number)
      if (!read.ok && read.error === 'malformed')
        return [finding('V5', say('record.v5-form', { number }), { fields })]
      const known = booked?.entry.registration.number
      return read.ok && known !== undefined && !sameNumber(number, known)
        ? [finding('V5', say('record.v5-other', { number, known, product: product.name }), { fields })]
        : []
    })
  },
}

const refusedForm = (id: 'V6' | 'V7', kind: 'file-symbol' | 'establishment', words: string): RecordRule => ({
  id,
  source:
    id === 'V6'
      ? 'EPA Label Review Manual ch. 14, Identification Numbers (Nov 2012)'
      : 'EPA Pesticide Registration Manual ch. 14, company and establishment numbers',
  check(record, context) {
    return productsOf(record, context).flatMap(({ product }) => {
      const number = recorded(product.registration)
      const read = number === undefined ? null : readRegistrationNumber(number)
      if (number === undefined || read === null || read.ok || read.error !== kind) return []
      const about = id === 'V6' ? 'label' : 'complete'
      return [finding(id, say(words, { number }), { about, fields })]
    })
  },
})

export const v6 = refusedForm('V6', 'file-symbol', 'record.v6-file-symbol')
export const v7 = refusedForm('V7', 'establishment', 'record.v7-establishment')

export const v8: RecordRule = {
  id: 'V8',
  source: `3 California Code of Regulations 6624; ${DPR}`,
  check(record, context) {
    const state = context.rules.state.id
    const local = productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const written = recorded(product.specialLocalNeed)
      const wanted = booked?.entry.registration.specialLocalNeed
      if (written === undefined)
        return wanted === undefined
          ? []
          : [
              finding('V8', say('record.v8-local-need', { number: wanted, product: product.name }), {
                fields,
              }),
            ]
      const given = readLocalNeedState(written)
      if (given === null)
        return [finding('V8', say('record.v8-local-need-form', { number: written }), { fields })]
      return given === state || context.rules.isFallback
        ? []
        : [
            finding('V8', say('record.v8-elsewhere', { number: written, state }), {
              about: 'label',
              fields,
            }),
          ]
    })
    return [...lacking('V8', ['state-number'], record, context), ...local]
  },
}

export const v44: RecordRule = {
  id: 'V44',
  source:
    'Cornell crop and pest guides 2024, Check label for site and pest; the twelve months are a proposal of this project',
  check(record, context) {
    const date = recorded(record.date)
    return productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const label = recorded(product.label)
      if (label === undefined)
        return [finding('V44', say('record.v44-version', { product: product.name }), { fields: ['product'] })]
      const seen = booked?.lastConfirmedOn ?? label.date
      if (date === undefined || daysBetween(seen, date) <= context.settings.labelFactDays) return []
      const figures = { product: product.name, since: { day: seen } }
      return [finding('V44', say('record.v44-old', figures), { weight: 'warn', fields: ['product'] })]
    })
  },
}
