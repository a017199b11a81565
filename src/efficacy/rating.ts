import { z } from 'zod'
import type { Day } from '#src/label/day.ts'
import { PlainDay } from '#src/label/day.ts'
import { InjuryStep } from './injury.ts'

/** A whole percentage. */
const Percent = z.int().min(0).max(100)
const YesNo = z.enum(['yes', 'no', 'unknown'])

/** One spot as it looks: how much of the weed is brown (0 no change, 100 dead), and how much ground living weed covers. */
export const SpotReading = z.strictObject({
  brownPercent: Percent,
  coverPercent: Percent.exactOptional(),
})
export type SpotReading = z.infer<typeof SpotReading>

/** What somebody saw on a visit. The untreated spot is read on the same scale as the plots; null where there is none. */
export const Rating = z.strictObject({
  on: PlainDay,
  by: z.string().min(1),
  /** The first look judges injury and first signs, and never decides. */
  isFirstLook: z.boolean(),
  plots: z
    .array(z.strictObject({ plot: z.string().min(1), ...SpotReading.shape }))
    .min(1)
    .max(20),
  untreated: SpotReading.nullable(),
  injury: InjuryStep,
  regrowth: z.boolean(),
  seedlings: z.boolean(),
  rain: YesNo,
  mown: YesNo,
})
export type Rating = z.infer<typeof Rating>

/** Living weed cover before the treatment. */
export const CoverBefore = z.strictObject({
  plots: z.array(z.strictObject({ plot: z.string().min(1), coverPercent: Percent })),
  untreatedPercent: Percent.nullable(),
})
export type CoverBefore = z.infer<typeof CoverBefore>

export type RatingProblem =
  | { readonly kind: 'before-treatment'; readonly treatedOn: Day }
  | { readonly kind: 'in-the-future'; readonly today: Day }
  | { readonly kind: 'plot-twice'; readonly plot: string }
  | { readonly kind: 'plot-unknown'; readonly plot: string }

export interface RatingPlace {
  readonly treatedOn: Day
  readonly today: Day
  /** The plots that were marked. */
  readonly plots: readonly string[]
}

/** Everything that is wrong with a rating at this place; none when it may be kept. */
export function checkRating(
  rating: Rating,
  { treatedOn, today, plots }: RatingPlace,
): readonly RatingProblem[] {
  const named = rating.plots.map(({ plot }) => plot)
  return [
    ...(rating.on < treatedOn ? [{ kind: 'before-treatment', treatedOn } as const] : []),
    ...(rating.on > today ? [{ kind: 'in-the-future', today } as const] : []),
    ...named
      .filter((plot, at) => named.indexOf(plot) < at)
      .map((plot) => ({ kind: 'plot-twice', plot }) as const),
    ...named.filter((plot) => !plots.includes(plot)).map((plot) => ({ kind: 'plot-unknown', plot }) as const),
  ]
}
