import type { Quantity } from '#src/quantity/quantity.ts'
import type { Output, Rate } from '#src/quantity/rate.ts'
import type { AreaUnit, MassUnit, VolumeUnit } from '#src/quantity/units.ts'
import type { Ceiling } from '../rate/ceilings.ts'
import type { Figures } from '../rate/figures.ts'

export type Volume = Quantity<VolumeUnit>
export type Mass = Quantity<MassUnit>
export type Area = Quantity<AreaUnit>

/** Something to measure with, whose marks or display go in whole steps. */
export interface Tool {
  readonly kind: 'scale' | 'cylinder' | 'spoon' | 'scoop'
  readonly name: string
  /** The smallest amount it tells apart: a weight for a scale, a volume for all others. */
  readonly step: Quantity
  /** The most it takes at one time. */
  readonly upTo?: Quantity
  /** What one level step weighs with this very product; without it a dry product is not measured by volume. */
  readonly holds?: Mass
}

/** What is in the tank already. */
export type InTank =
  /** The very mix that is asked for. */
  | { readonly kind: 'same'; readonly volume: Volume }
  /** The same product, mixed at another rate or for another output. */
  | { readonly kind: 'other'; readonly volume: Volume; readonly rate: Rate; readonly output?: Output }

export interface Adjuvant {
  readonly name: string
  readonly rate: Rate
  /** With none, its own rate is its ceiling. */
  readonly maxima?: readonly Ceiling[]
}

/** What every mix needs to know, whatever its size. */
export interface MixBasis {
  /** The rate asked for: per area, per volume of mix, or a share of it; as product, ai or ae. */
  readonly rate: Rate
  /** Output, strengths and densities, as far as they are known. */
  readonly figures: Figures
  /** Every limit of the amount; each must hold. With none the rate asked for is its own ceiling. */
  readonly maxima?: readonly Ceiling[]
  /** The least that the label asks for. */
  readonly lowest?: Rate
  readonly tools?: readonly Tool[]
  readonly adjuvants?: readonly Adjuvant[]
  /** What the tank holds. With none, the volume asked for. */
  readonly capacity?: Volume
  /** The distance between two marks of the tank. With none, a volume is filled as it was asked for. */
  readonly mark?: Volume
  readonly inTank?: InTank
  /** The output that this rate is usually thought for; where it differs, both strengths are told. */
  readonly usualOutput?: Output
}

/** One filling of the tank. */
export interface FillRequest extends MixBasis {
  /** How much finished mix there is to be in the tank. */
  readonly fill: Volume
  /** The ground that will be sprayed from it, to foresee what is left over. */
  readonly ground?: Area
}

/** A whole job: as many fillings as the ground needs. */
export interface JobRequest extends MixBasis {
  readonly ground: Area
  /** What the tank holds: needed here. */
  readonly capacity: Volume
}
