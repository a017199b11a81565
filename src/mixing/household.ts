import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import type { MixOptions } from './options.ts'
import { readAlso } from './tank/also.ts'

/** Things of kitchen, laundry and garage that home recipes call for, in both languages of the crew. */
const HOUSEHOLD =
  /\b(bleach|ammonia|vinegar|dish(washing)? (soap|liquid|detergent)|laundry (soap|detergent)|table salt|rock salt|epsom( salts?)?|baking soda|borax|gasoline|diesel|kerosene|motor oil|rubbing alcohol|boric acid|cloro|lej[ií]a|blanqueador|amon[ií]aco|vinagre|jab[oó]n( de trastes)?|detergente|sal de mesa|bicarbonato|gasolina|queroseno|aceite de motor)\b/i

/**
 * A home recipe is refused before anything else is asked. A product of the label book may have such a word in its name:
 * it has a label.
 */
export async function refuseHousehold(given: MixOptions, { store }: Tools): Promise<Answer | null> {
  const named = [
    ...(given.product === undefined ? [] : [given.product]),
    ...readAlso(given.also ?? '').map(({ product }) => product),
    ...(given.adjuvant === undefined ? [] : [given.adjuvant]),
  ].filter((name) => HOUSEHOLD.test(name))
  if (named.length === 0) return null
  const book = new Set((await store.labels.names()).map((name) => name.toLowerCase()))
  const what = named.find((name) => !book.has(name.trim().toLowerCase()))
  if (what === undefined) return null
  return {
    reply: reply('refusal', say('mixing.household', { what }), {
      lines: [say('mixing.household-why')],
      audience: 'person',
      safety: { about: ['mixing'] },
    }),
  }
}
