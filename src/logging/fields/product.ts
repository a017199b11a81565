import { say, type Text } from '#src/conversation/text.ts'
import { quantityTrouble } from '#src/conversation/trouble.ts'
import type { Form } from '#src/label/entry.ts'
import { readingOf } from '#src/label/figures.ts'
import { parseQuantity } from '#src/quantity/parse.ts'
import { parseRate } from '#src/quantity/parse-rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import { notRecorded, recorded } from '#src/record/not-recorded.ts'
import type { ProductUsed } from '#src/record/product.ts'
import type { LogEnv } from '../env.ts'
import { targetOf } from '../target.ts'
import { bad, good, isNotKnown, type LogField, languageOf, type Read } from './field.ts'

/** Several products of one tank stand behind each other: `3 g; 2 fl oz`. */
const listed = (text: string) => text.split(';').map((one) => one.trim())

const productsOf = ({ draft }: LogEnv): readonly ProductUsed[] => recorded(draft.products) ?? []

/** One value for each product of the tank, in their order. */
function forEach(
  text: string,
  env: LogEnv,
  use: (typed: string, product: ProductUsed) => ProductUsed | Text,
): Read {
  const products = productsOf(env)
  const texts = listed(text)
  if (products.length === 0) return bad(say('logging.product-first'))
  if (texts.length !== products.length)
    return bad(say('logging.one-each', { products: { all: products.map(({ name }) => name) } }))
  const changed: ProductUsed[] = []
  for (const [at, product] of products.entries()) {
    const one = use(texts[at] ?? '', product)
    if ('say' in one) return bad(one)
    changed.push(one)
  }
  return good({ products: changed })
}

const formOf = ({ form }: ProductUsed): Form | undefined => recorded(form)

/** An ounce is a weight or a volume by the product's form; decimals as the language writes them. */
function readingFor(one: ProductUsed, env: LogEnv) {
  const form = formOf(one)
  return { ...(form === undefined ? {} : readingOf(form)), locale: languageOf(env) }
}

const eachText = (env: LogEnv, print: (product: ProductUsed) => string) =>
  productsOf(env).map(print).join('; ')

/** By name; the label book fills in the rest where it holds the product (`settleProducts`). */
export const product: LogField = {
  keys: ['products'],
  show: (env) => eachText(env, ({ name }) => name),
  read(text, env) {
    const names = listed(text).filter((one) => one !== '')
    if (names.length === 0 || names.length > 6) return bad(say('logging.product-needed', { typed: text }))
    const known = productsOf(env)
    return good({
      products: names.map(
        (name) =>
          known.find((one) => one.name.toLowerCase() === name.toLowerCase()) ?? { name: name.slice(0, 200) },
      ),
    })
  },
}

export const registration: LogField = {
  keys: [],
  show: (env) => eachText(env, ({ registration: number }) => recorded(number) ?? ''),
  read: (text, env) =>
    forEach(text, env, (typed, one) => ({
      ...one,
      registration: isNotKnown(typed) ? notRecorded : typed.slice(0, 200),
    })),
}

/** The product as it comes: an ounce is a weight or a volume by its form, and asked where nobody knows that. */
export const amount: LogField = {
  keys: [],
  show: (env) =>
    eachText(env, ({ amount: one }) => {
      const said = recorded(one)
      return said === undefined ? '' : `${said.value} ${said.unit}`
    }),
  read: (text, env) =>
    forEach(text, env, (typed, one) => {
      if (isNotKnown(typed)) return { ...one, amount: notRecorded }
      const read = parseQuantity(typed, {
        ...readingFor(one, env),
        expect: ['mass', 'volume'],
        allowZero: true,
      })
      return read.ok ? { ...one, amount: read.value } : quantityTrouble(read.error)
    }),
}

export const rate: LogField = {
  keys: [],
  show: (env) =>
    eachText(env, ({ rate: one }) => {
      const said = recorded(one)
      if (said === undefined) return ''
      const { value, unit } = sayRate(said)
      return `${value} ${unit}`
    }),
  read: (text, env) =>
    forEach(text, env, (typed, one) => {
      if (isNotKnown(typed)) return { ...one, rate: notRecorded }
      const read = parseRate(typed, readingFor(one, env))
      return read.ok ? { ...one, rate: read.value } : quantityTrouble(read.error)
    }),
}

export const targets: LogField = {
  keys: ['targets'],
  show: ({ draft }) =>
    recorded(draft.targets)
      ?.map(({ words }) => words)
      .join('; ') ?? '',
  read(text) {
    const words = text
      .split(/[;,]/)
      .map((one) => one.trim())
      .filter((one) => one !== '')
    if (words.length === 0 || words.length > 12) return bad(say('logging.weed-needed', { typed: text }))
    return good({ targets: words.map(targetOf) })
  },
}

/** What "not recorded" means for a field that every product has of its own. */
export function blankOfProducts(name: string, env: LogEnv): ProductUsed[] {
  return productsOf(env).map((one) => {
    if (name === 'registration' && one.registration === undefined && one.exempt25b === undefined)
      return { ...one, registration: notRecorded }
    if (name === 'amount' && one.amount === undefined) return { ...one, amount: notRecorded }
    if (name === 'rate' && one.rate === undefined) return { ...one, rate: notRecorded }
    return one
  })
}
