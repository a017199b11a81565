import type { Density, Output, Strength } from '#src/quantity/rate.ts'

/** What is known about a product and a sprayer, for turning one kind of rate into another. */
export interface Figures {
  /** What the product holds, as ai and as ae where both are printed. */
  readonly strengths?: readonly Strength[]
  /** What a volume of a liquid product weighs. */
  readonly density?: Density
  /** How much mix goes on an area. */
  readonly output?: Output
  /** What a volume of the finished mix weighs, for shares by weight; that of water is near enough in practice. */
  readonly mixDensity?: Density
}

/** The figure that a conversion lacks. */
export type Need = 'strength-ai' | 'strength-ae' | 'density' | 'output' | 'mix-density'

export type RateProblem =
  | { readonly kind: 'needs'; readonly need: Need }
  /** ai and ae are weights: fluid ounces of ai mean nothing. */
  | { readonly kind: 'ai-by-volume' }
