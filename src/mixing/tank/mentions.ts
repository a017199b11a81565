import type { LabelPair, TankItem } from '#src/calculator/order/item.ts'
import type { Code } from '#src/calculator/order/table.ts'
import type { LabelEntry } from '#src/label/entry.ts'

/** What labels call a formulation or a helper, beside its code. */
const SPELLED: Partial<Record<Code, RegExp>> = {
  WSP: /water[- ]soluble (?:packet|bag|pouch)/i,
  WP: /wettable powder/i,
  DF: /dry flowable/i,
  WDG: /(?:water[- ])?dispersible granule/i,
  WG: /(?:water[- ])?dispersible granule/i,
  SP: /soluble powder/i,
  SG: /soluble granule/i,
  SC: /suspension concentrate|flowable/i,
  F: /flowable/i,
  SL: /soluble (?:liquid|concentrate)/i,
  EC: /emulsifiable/i,
  EW: /emulsion/i,
  OD: /oil dispersion/i,
  'ammonium sulfate': /ammonium sulfate|\bAMS\b/i,
  'compatibility agent': /compatibility/i,
  defoamer: /defoam|anti-?foam/i,
  buffer: /buffer|acidifier/i,
  NIS: /surfactant|\bNIS\b/i,
  COC: /crop oil|\bCOC\b/i,
  MSO: /methylated seed oil|\bMSO\b/i,
  'drift agent': /drift/i,
}

const OWN = /\b(?:this|the) product\b/i

/**
 * The pairs that a label orders by its own steps of filling: what one step names goes in before what a later step
 * names. Steps that name nothing of this tank (fill, stir) order nothing.
 */
export function pairsOf(entry: LabelEntry, own: string, items: readonly TankItem[]): LabelPair[] {
  const steps = (entry.mixingOrder ?? []).map((words) => ({ words, named: namedIn(words, own, items) }))
  return steps.flatMap(({ named: firsts }, at) =>
    steps.slice(at + 1).flatMap(({ words, named: seconds }) =>
      firsts.flatMap((first) =>
        seconds
          .filter((second) => second !== first && !isEarlier(second, at, steps))
          .map(
            (second): LabelPair => ({
              first: { item: first },
              second: { item: second },
              by: entry.name,
              line: words,
            }),
          ),
      ),
    ),
  )
}

type Named = readonly { readonly named: readonly string[] }[]

/** Named again later, as in "stir the powder in": its first mention decides. */
function isEarlier(item: string, at: number, steps: Named): boolean {
  return steps.slice(0, at + 1).some(({ named }) => named.includes(item))
}

function namedIn(words: string, own: string, items: readonly TankItem[]): string[] {
  const plain = words.toLowerCase()
  const found = items.filter(
    ({ id, name, code }) =>
      plain.includes(name.toLowerCase()) ||
      (id === own && OWN.test(words)) ||
      (id !== own && (SPELLED[code]?.test(words) === true || new RegExp(`\\b${code}\\b`).test(words))),
  )
  return found.map(({ id }) => id)
}

/** The code of an adjuvant by what its label calls it; null where nobody has said what it is. */
export function codeOfAdjuvant(kind: string): Code | null {
  const helpers = ['ammonium sulfate', 'compatibility agent', 'defoamer', 'buffer', 'drift agent'] as const
  const codes: readonly Code[] = [...helpers, 'MSO', 'COC', 'NIS']
  return codes.find((code) => SPELLED[code]?.test(kind) === true) ?? null
}
