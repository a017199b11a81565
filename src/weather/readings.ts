import type { Quantity } from '#src/quantity/quantity.ts'
import type { UnitOf } from '#src/quantity/units.ts'
import type { PrintedAt } from './reason.ts'

export type Speed = Quantity<UnitOf<'speed'>>
export type Temperature = Quantity<UnitOf<'temperature'>>

/** What the wind may blow towards. */
export const windTargets = ['people', 'animals', 'garden', 'bees', 'water', 'crop', 'building'] as const
export type WindTarget = (typeof windTargets)[number]

/** Signs of a temperature inversion, each asked as a question. */
export const inversionSigns = [
  'smoke-layer',
  'ground-fog',
  'dew-or-frost',
  'clear-sky',
  'sounds-carry',
] as const
export type InversionSign = (typeof inversionSigns)[number]

/** How the sun stands, in whole minutes; one of them is enough. */
export interface Sun {
  readonly sinceSunriseMin?: number
  readonly untilSunsetMin?: number
}

/** State of the grass and the ground, as somebody sees it. What nobody said is left out. */
export interface TurfState {
  readonly drought?: boolean
  readonly greeningUp?: boolean
  readonly dormant?: boolean
  /** Seeded or sodded and not yet fully rooted. */
  readonly isNew?: boolean
  readonly mownDaysAgo?: number
  readonly mowInDays?: number
  readonly soaked?: boolean
  readonly frozenOrSnow?: boolean
  readonly overTreeRoots?: boolean
  /** Hours until the next watering. */
  readonly waterInHours?: number
}

/** The day as it was read or typed. What nobody knows is left out, and may be asked for. */
export interface Readings {
  readonly wind?: Speed
  readonly gust?: Speed
  readonly towards?: readonly WindTarget[]
  readonly temperature?: Temperature
  readonly forecastHigh?: Temperature
  /** Relative humidity in percent, as decimal text. */
  readonly humidityPercent?: string
  readonly pressureKPa?: number
  readonly rainInHours?: number
  readonly inversion?: Readonly<Partial<Record<InversionSign, boolean>>>
  readonly sun?: Sun
  readonly droplets?: string
  readonly turf?: TurfState
}

/** What one product's own label says about the day. What is left out the label does not say. */
export interface LabelDay {
  readonly wind?: { readonly most?: Speed; readonly least?: Speed } & PrintedAt
  readonly temperature?: { readonly most?: Temperature; readonly least?: Temperature } & PrintedAt
  readonly droplets?: { readonly classes: readonly string[] } & PrintedAt
  readonly rainFree?: { readonly hours: number } & PrintedAt
  readonly watering?: { readonly rule: 'hold off' | 'water in'; readonly hours?: number } & PrintedAt
  readonly mowing?: { readonly daysBefore?: number; readonly daysAfter?: number } & PrintedAt
  readonly treeRoots?: { readonly rule: 'allowed' | 'forbidden' } & PrintedAt
  readonly inversion?: PrintedAt
  /** Says that the turf must be fully dormant, or must not be. */
  readonly dormant?: { readonly rule: 'only' | 'never' } & PrintedAt
  /** Mode-of-action groups as printed. */
  readonly groups: readonly string[]
  /** Where it works: products for the leaf suffer from heat, drought and rain, those for the soil do not. */
  readonly through: 'leaf' | 'soil' | 'both'
  /** No product was named: whether its label prints a limit is not known. */
  readonly isUnread?: true
}

/** The crew's own limits where a label is silent, chosen inside what is published. None belongs to a product. */
export interface DaySettings {
  readonly windCalm: Speed
  readonly windEasy: Speed
  readonly windStop: Speed
}

export const usualDaySettings: DaySettings = {
  windCalm: { value: '3', unit: 'mph' },
  windEasy: { value: '7', unit: 'mph' },
  windStop: { value: '10', unit: 'mph' },
}
