import type { Quantity } from '#src/quantity/quantity.ts'
import type { AreaRate, Output, Rate } from '#src/quantity/rate.ts'
import type { Day } from './day.ts'
import type { Season } from './rate-line.ts'

/** What one past treatment left of one active ingredient: the same amount as ai and, where known, as ae. */
export interface PastActive {
  readonly name: string
  readonly group?: string
  readonly amounts: readonly AreaRate[]
}

/** A logged treatment of this area, as far as limits count it. */
export interface PastTreatment {
  readonly on: Day
  /** Name of the label entry that was used. */
  readonly entry: string
  /** Product per area of the treated ground; absent when the log does not say. */
  readonly product?: AreaRate
  readonly actives: readonly PastActive[]
  /** Treated ground in square feet, as decimal text. */
  readonly areaFt2: string
  /** Was it the very ground that is to be treated now? Only a plain `false` takes it out of the limits. */
  readonly sameGround: boolean | 'unknown'
}

/** Conditions as somebody typed or measured them; what nobody knows is left out. */
export interface Conditions {
  readonly temperature?: Quantity
  readonly wind?: Quantity
  /** Hours until the rain that the forecast gives. */
  readonly rainInHours?: number
}

/** What is to be done, where, by whom and when: everything that a label may have a word on. */
export interface Situation {
  /** Taxa that grow on the area, an overseed among them while it lives. */
  readonly turfs: readonly string[] | 'unknown'
  /** Those of them that are fully dormant now, or all, whatever grows there; absent when nobody has said. */
  readonly dormant?: readonly string[] | 'all'
  /** Common names of taxa, for what people read. */
  readonly names?: Readonly<Record<string, string>>
  /** A taxon, or the name of a weed as somebody typed it. */
  readonly weed?: string
  readonly season?: Season
  readonly treatment?: 'first' | 'repeat'
  /** Id of the rate line that was chosen. */
  readonly line?: string
  /** The rate that would really go on the ground, in the unit that was asked for. */
  readonly rate?: Rate
  readonly output?: Output
  readonly adjuvant?: 'with' | 'without'
  /** Names of other products that are, or go, in the same tank. */
  readonly partners?: readonly string[]
  /** Two letters of the state that the site lies in. */
  readonly state?: string
  /** Certified, or working under somebody who is. */
  readonly licensed: boolean
  readonly today: Day
  /** When a lead last held this entry against the label; null when nobody has. */
  readonly lastConfirmedOn: Day | null
  readonly treatments: readonly PastTreatment[]
  readonly seededOn?: Day
  readonly soddedOn?: Day
  /** Mowings since it was seeded or sodded. */
  readonly mowings?: number
  readonly mownOn?: Day
  /** Distance to the nearest water, drain or well; `none` where there is none. */
  readonly water?: Quantity | 'none' | 'unknown'
  readonly conditions?: Conditions
  /** A sod farm, a nursery or a greenhouse, where the Worker Protection Standard holds. */
  readonly production?: boolean
}

/** The crew's own settings. None of them is a limit of a product. */
export interface AllowSettings {
  /** Days after which a lead should have held an entry against the label again. */
  readonly confirmEveryDays: number
  /** Days before that when the lead is told. */
  readonly confirmNoteDays: number
  /** Days after that when the entry is held. */
  readonly confirmHoldDays: number
  /** Use of one mode-of-action group on one area, within a year, at which a note is made. */
  readonly groupUses: number
  /** Share by which measuring may miss the lowest rate before that counts as a weak dose. */
  readonly measuringShare: string
  /** States in which a weed that the label does not list is a refusal. */
  readonly unlistedWeedRefusedIn: readonly string[]
  /** States in which less than the label's rate is a refusal. */
  readonly lessRefusedIn: readonly string[]
}

/**
 * Defaults of a new crew. The days and the third use of a group are common practice, no source. 5 % is how far
 * rounding to a tool may move a rate. New York keeps turf work to the weeds on the label (Cornell crop and pest
 * guides 2024, "Check label for site and pest") and allows less than the label's rate only in agriculture
 * (Environmental Conservation Law 33-0725, https://www.nysenate.gov/legislation/laws/ENV/33-0725).
 */
export const allowDefaults: AllowSettings = {
  confirmEveryDays: 365,
  confirmNoteDays: 30,
  confirmHoldDays: 60,
  groupUses: 3,
  measuringShare: '0.05',
  unlistedWeedRefusedIn: ['NY'],
  lessRefusedIn: ['NY'],
}
