import type { Adjuvant } from '#src/calculator/mix/request.ts'
import { askFor } from '#src/conversation/ask-for.ts'
import type { Reader } from '#src/conversation/reader.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import { rateUnitText, sayRate } from '#src/quantity/said.ts'
import { adjuvantsOfLabel, chooseAdjuvants } from '../adjuvants.ts'
import type { MixOptions } from '../options.ts'
import type { Part } from './part.ts'

export type TankAdjuvants =
  | { readonly ok: true; readonly value: readonly Adjuvant[] }
  | { readonly ok: false; readonly ask: Answer }

/** One dose of each adjuvant for the whole tank. Labels that ask for different rates of one are a question. */
export function tankAdjuvants(given: MixOptions, parts: readonly Part[], read: Reader): TankAdjuvants {
  const typed = given.adjuvant
  const entries = parts.map(({ named }) => named.product.live.body)
  const kind = entries.find(({ limits }) => limits.adjuvant?.kind !== undefined)?.limits.adjuvant?.kind
  if (typed !== undefined && /\d/.test(typed)) {
    const own = chooseAdjuvants(typed, entries[0], read)
    return { ok: true, value: own.map((one) => ({ ...one, name: kind ?? one.name })) }
  }
  const wanted = entries.flatMap((entry) =>
    typed === undefined ? adjuvantsOfLabel(entry, 'needed') : chooseAdjuvants(typed, entry, read),
  )
  const kinds = new Map<string, Adjuvant[]>()
  for (const one of wanted) {
    const key = one.name.toLowerCase()
    kinds.set(key, [...(kinds.get(key) ?? []), one])
  }
  for (const same of kinds.values())
    if (ratesOf(same).length > 1) return { ok: false, ask: askRate(given, same) }
  return { ok: true, value: [...kinds.values()].flatMap((same) => same.slice(0, 1)) }
}

const textOf = ({ rate }: Adjuvant) => `${rate.value} ${rateUnitText(rate)}`

/** One of each rate. */
const ratesOf = (same: readonly Adjuvant[]) => [...new Map(same.map((one) => [textOf(one), one])).values()]

function askRate(given: MixOptions, same: readonly Adjuvant[]): Answer {
  const rates = ratesOf(same)
  return askFor(
    given,
    say('mixing.tank.adjuvant-rates', {
      kind: same[0]?.name ?? '',
      rates: { all: rates.map(({ rate }) => sayRate(rate)), join: 'and' },
    }),
    rates.map((one) => ({
      label: say('words.quantity', { quantity: sayRate(one.rate) }),
      set: { adjuvant: textOf(one) },
    })),
    { safety: { about: ['mixing'] } },
  )
}
