import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { refuse } from '../ask-mix.ts'
import type { MixOptions } from '../options.ts'
import { findNamed } from '../resolve.ts'
import { refuseGranules } from '../run.ts'
import { readAlso } from './also.ts'
import { askedFor, givenFor, type Part } from './part.ts'

export type FoundParts =
  | { readonly ok: true; readonly value: readonly [Part, ...Part[]] }
  | { readonly ok: false; readonly ask: Answer }

/** More than five products in one tank is a slip or a plan for the shop, not for the truck (common practice, no source). */
const MOST_PRODUCTS = 5

/** Looks up every product of the tank, one question at a time. */
export async function findParts(given: MixOptions, tools: Tools): Promise<FoundParts> {
  const others = readAlso(given.also ?? '')
  if (given.product === undefined) return no(refuse([say('mixing.tank.first-product')]))
  if (others.length + 1 > MOST_PRODUCTS)
    return no(refuse([say('mixing.tank.too-many', { most: MOST_PRODUCTS })]))
  const parts: Part[] = []
  for (let index = 0; index <= others.length; index++) {
    const own = givenFor(given, index)
    const found = await findNamed(own, tools)
    if (!found.ok) return no(askedFor(given, index, found.ask))
    const { product } = found.value
    if (product === null) throw new RangeError('A product of the tank has no name')
    const granule = refuseGranules(found.value)
    if (granule !== null) return no(granule)
    if (parts.some((one) => one.named.product.id === product.id))
      return no(refuseTank(say('mixing.tank.twice', { product: product.name })))
    parts.push({ index, given: own, named: { ...found.value, product } })
  }
  const [first, ...rest] = parts
  if (first === undefined) throw new RangeError('A tank has no product')
  return { ok: true, value: [first, ...rest] }
}

export function refuseTank(title: Text, lines: readonly Text[] = []): Answer {
  return {
    reply: reply('refusal', title, {
      lines: [...lines],
      audience: 'person',
      safety: { about: ['measuring'] },
    }),
  }
}

const no = (ask: Answer): FoundParts => ({ ok: false, ask })
