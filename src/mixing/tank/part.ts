import { withSet } from '#src/conversation/ask-for.ts'
import type { Choice, Step } from '#src/conversation/reply.ts'
import type { Text } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import type { Situation } from '#src/label/situation.ts'
import type { Verdict } from '#src/label/verdict.ts'
import type { MixOptions } from '../options.ts'
import type { Named } from '../resolve.ts'
import { type Also, readAlso, writeAlso } from './also.ts'

/** A product of a tank, with the place, sprayer and person that all of them share. */
export interface Part {
  /** From zero, in the order of typing. */
  readonly index: number
  /** The request as if this product were the only one. */
  readonly given: MixOptions
  readonly named: TankNamed
}

export type TankNamed = Named & { readonly product: NonNullable<Named['product']> }

/** A part with what its label says about this ground, beside these partners. */
export interface JudgedPart extends Part {
  readonly situation: Situation
  readonly verdict: Verdict
  /** Who lifted holds for this product, area and day. */
  readonly lifted: Text | null
}

/** The request for one product: the first as typed, the others with their own rate and line. */
export function givenFor(given: MixOptions, index: number): MixOptions {
  const { also, ...shared } = given
  if (index === 0) return shared
  const one = readAlso(also ?? '')[index - 1]
  if (one === undefined) throw new RangeError('A tank has no such product')
  const { rate: _, line: __, strength: ___, ...rest } = shared
  return { ...rest, ...one }
}

/** What a question about one product sets is written where that product stands; the rest is the tank's own. */
export function askedFor(given: MixOptions, index: number, answer: Answer): Answer {
  if (index === 0) return { ...answer, state: given }
  const choices = answer.reply.choices.map(
    (choice): Choice => ({
      ...choice,
      to:
        'command' in choice.to
          ? choice.to
          : { ...choice.to, value: setFor(given, index, choice.to.value ?? null) },
    }),
  )
  return { ...answer, reply: { ...answer.reply, choices }, state: given }
}

type Json = NonNullable<Step['value']> | null

function setFor(given: MixOptions, index: number, value: Json): Json {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value
  const { product, line, rate, ...rest } = value
  const own = Object.fromEntries(
    Object.entries({ product, line, rate }).filter(([, one]) => typeof one === 'string'),
  )
  if (Object.keys(own).length === 0) return rest
  const all = readAlso(given.also ?? '')
  const changed = all.map((one, at) => (at === index - 1 ? (withSet(one, own) as unknown as Also) : one))
  return { ...rest, also: writeAlso(changed) }
}
