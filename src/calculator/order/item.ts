import { z } from 'zod'
import { Code } from './table.ts'

/** One thing that goes into the tank. */
export const TankItem = z.strictObject({
  /** Unique in the tank. */
  id: z.string().min(1),
  name: z.string().min(1),
  code: Code,
})
export type TankItem = z.infer<typeof TankItem>

const Target = z.union([z.strictObject({ item: z.string() }), z.strictObject({ code: Code })])
export type Target = z.infer<typeof Target>

/** A pair that a label orders otherwise: `first` goes in before `second`. It beats every published order. */
export const LabelPair = z.strictObject({
  first: Target,
  second: Target,
  /** Name of the product whose label says so. */
  by: z.string().min(1),
  /** The label's own words, when the crew has typed them. */
  line: z.string().min(1).exactOptional(),
})
export type LabelPair = z.infer<typeof LabelPair>

/** One item before another, because a label says so. */
export interface Must {
  readonly first: string
  readonly second: string
  readonly pair: LabelPair
}

/** Label pairs spelled out for the items in this tank; pairs about something that is not in it fall away. */
export function spellOut(pairs: readonly LabelPair[], items: readonly TankItem[]): Must[] {
  return pairs.flatMap((pair) =>
    meant(pair.first, items).flatMap((first) =>
      meant(pair.second, items).flatMap((second) => (first === second ? [] : [{ first, second, pair }])),
    ),
  )
}

function meant(target: Target, items: readonly TankItem[]): string[] {
  const isMeant = (item: TankItem) => ('item' in target ? item.id === target.item : item.code === target.code)
  return items.filter(isMeant).map((item) => item.id)
}
