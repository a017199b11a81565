import type { Quantity } from '#src/quantity/quantity.ts'
import type { Rate, VolumeRate } from '#src/quantity/rate.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import type { CeilingCheck } from '../rate/ceilings.ts'
import type { RateProblem } from '../rate/figures.ts'
import type { Step } from '../worked.ts'
import type { Area, Tool, Volume } from './request.ts'

type Amount = Quantity<AmountUnit>

/** An amount as it is measured and as it was asked for. */
export interface MeasuredAmount {
  /** Rounded to the tool, in the tool's unit. */
  readonly measured: Amount
  /** The same rounded amount in the unit of the rate. */
  readonly inRateUnit: Amount
  /** Before any rounding to the tool, in the unit of the rate. */
  readonly exact: Amount
  readonly tool: Tool | undefined
  /** Level scoops or spoons of a dry product. */
  readonly scoops: number | undefined
  /** How often the tool has to be filled. */
  readonly fillings: number
}

export interface AdjuvantAmount extends MeasuredAmount {
  readonly name: string
  readonly rateApplied: Rate
}

/** The strength that this person's output gives, beside the one at the output the rate is usually thought for. */
export interface OutputTrap {
  readonly yours: VolumeRate
  readonly usual: VolumeRate
}

/** One filling, worked out and proved backwards. */
export interface Mix {
  /** What goes in; undefined when nothing has to be added. */
  readonly concentrate: MeasuredAmount | undefined
  /** Fill to this mark. */
  readonly fillTo: Volume
  readonly alreadyIn: Volume | undefined
  readonly areaCovered: Area | undefined
  /** What the rounded amounts really give, in the form of the rate asked for. */
  readonly rateApplied: Rate
  /** Applied over asked: 1 is exact. */
  readonly rateShare: string
  /** Of a rate per volume or a share: what it becomes on the ground at this output. */
  readonly rateOnGround: Rate | undefined
  readonly ceilings: readonly CeilingCheck[]
  readonly adjuvants: readonly AdjuvantAmount[]
  readonly leftover: Volume | undefined
  readonly trap: OutputTrap | undefined
  readonly working: readonly Step[]
  /** What to mind: less than the label's lowest, leftovers, printed pairs, several fillings of the tool. */
  readonly notes: readonly Step[]
}

/** A way out of a held answer. */
export type Proposal =
  | { readonly kind: 'finer-tool'; readonly step: Amount }
  | { readonly kind: 'batch'; readonly fillTo: Volume; readonly concentrate: Amount }
  | { readonly kind: 'even-loads'; readonly loads: number; readonly fillTo: Volume }
  /** Keep so much of the leftover in the tank, fill up, and set the rest aside in a labeled container. */
  | {
      readonly kind: 'split-leftover'
      readonly keep: Volume
      readonly fillTo: Volume
      readonly setAside: Volume
    }

export type MixProblem =
  | RateProblem
  | { readonly kind: 'in-tank-above-fill'; readonly inTank: Volume; readonly fill: Volume }
  | { readonly kind: 'in-tank-above-capacity'; readonly inTank: Volume; readonly capacity: Volume }
  | { readonly kind: 'unsound-tool'; readonly tool: string }
  | { readonly kind: 'nothing-asked' }

/** What stands in the way of an answer. `problem` is a question or a wrong request; the others are holds or a refusal. */
export type NoMix =
  | { readonly outcome: 'problem'; readonly problem: MixProblem; readonly reason: Step }
  | { readonly outcome: 'above-maximum'; readonly check: CeilingCheck; readonly reason: Step }
  | { readonly outcome: 'maxima-disagree'; readonly check: CeilingCheck; readonly reason: Step }
  | {
      readonly outcome: 'too-coarse'
      readonly of: string
      readonly exact: Amount
      readonly measured: Amount
      readonly shift: string
      readonly proposals: readonly Proposal[]
      readonly reason: Step
    }
  | {
      readonly outcome: 'below-tool'
      readonly of: string
      readonly exact: Amount
      readonly step: Amount
      readonly proposals: readonly Proposal[]
      readonly reason: Step
    }
  | { readonly outcome: 'no-tool'; readonly of: string; readonly exact: Amount; readonly reason: Step }
  | {
      readonly outcome: 'not-fit'
      readonly fillTo: Volume
      readonly capacity: Volume
      readonly addNone: boolean
      readonly proposals: readonly Proposal[]
      readonly reason: Step
    }

export type MixOutcome = { readonly outcome: 'answer'; readonly mix: Mix } | NoMix

/** Loads that are alike. */
export interface Load {
  readonly count: number
  readonly mix: Mix
}

/** A whole job. */
export interface Job {
  /** All finished mix that the loads make, with what was in the tank already. */
  readonly totalMix: Volume
  /** The mix that the ground needs, before marks. */
  readonly neededMix: Volume
  /** All product that is measured out, in the unit of the rate. */
  readonly totalConcentrate: Amount
  /** The same before rounding to the tools. */
  readonly totalExact: Amount
  readonly loads: number
  readonly groups: readonly [Load, ...Load[]]
  readonly lastLoad: Volume
  readonly lastMix: Mix
  readonly leftover: Volume | undefined
  readonly working: readonly Step[]
  readonly notes: readonly Step[]
}

export type JobOutcome =
  | { readonly outcome: 'answer'; readonly job: Job }
  | (NoMix & { readonly load?: 'first' | 'full' | 'last' })
