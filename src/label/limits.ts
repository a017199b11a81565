import { z } from 'zod'
import { Figure, Name, printed, scope, Words } from './printed.ts'

const WholeDays = z.int().min(0).max(3650)

/** A calendar year ends on 31 December; a rolling one is any twelve months in a row. */
export const Period = z.enum(['calendar', 'rolling'])
export type Period = z.infer<typeof Period>

/** What is counted against a limit: this product alone, or every product with the same active ingredient. */
export const Counts = z.enum(['product', 'active'])
export type Counts = z.infer<typeof Counts>

/** The most at one time. `rates` are the same limit in each unit in which the label prints it. */
export const ApplicationLimit = z.strictObject({ rates: z.array(Figure).min(1), ...scope, ...printed })
export type ApplicationLimit = z.infer<typeof ApplicationLimit>

/** The most in a year per area of ground, as product, active ingredient (ai) or acid equivalent (ae). */
export const YearlyLimit = z.strictObject({
  rates: z.array(Figure).min(1),
  period: Period,
  counts: Counts,
  /** Which active it is about, where the product holds several. */
  active: Name.exactOptional(),
  ...scope,
  ...printed,
})
export type YearlyLimit = z.infer<typeof YearlyLimit>

/** The most treatments in a year on the same ground. */
export const CountLimit = z.strictObject({
  most: z.int().min(1).max(100),
  period: Period,
  counts: Counts,
  ...scope,
  ...printed,
})
export type CountLimit = z.infer<typeof CountLimit>

/** The days from one treatment to the next on the same ground. */
export const IntervalLimit = z.strictObject({ days: WholeDays, counts: Counts, ...scope, ...printed })
export type IntervalLimit = z.infer<typeof IntervalLimit>

export const Adjuvant = z.strictObject({
  rule: z.enum(['needed', 'allowed', 'forbidden']),
  kind: Words.exactOptional(),
  rate: Figure.exactOptional(),
  ...printed,
})
export type Adjuvant = z.infer<typeof Adjuvant>

/** Air temperature at spraying, each end with its unit: `85 F`. */
export const TemperatureLimit = z.strictObject({
  most: Figure.exactOptional(),
  least: Figure.exactOptional(),
  ...printed,
})
export const WindLimit = z.strictObject({
  most: Figure.exactOptional(),
  least: Figure.exactOptional(),
  ...printed,
})
/** Droplet classes that the label accepts, from the eight of ANSI/ASAE S572. */
export const DropletRule = z.strictObject({
  classes: z
    .array(
      z.enum([
        'extremely fine',
        'very fine',
        'fine',
        'medium',
        'coarse',
        'very coarse',
        'extremely coarse',
        'ultra coarse',
      ]),
    )
    .min(1),
  ...printed,
})
export const RainFree = z.strictObject({ hours: z.number().min(0).max(240), ...printed })
export const Mowing = z.strictObject({
  daysBefore: WholeDays.exactOptional(),
  daysAfter: WholeDays.exactOptional(),
  ...printed,
})
/** Where the product gets in: through the leaf, through the soil, or by both ways. */
export const WorksThrough = z.strictObject({ way: z.enum(['leaf', 'soil', 'both']), ...printed })
export const Watering = z.strictObject({
  rule: z.enum(['hold off', 'water in']),
  hours: z.number().min(0).max(240).exactOptional(),
  ...printed,
})
/** How long people and pets stay off treated ground: so many hours, until it has dried, or the later of both. */
export const KeepOff = z
  .strictObject({
    hours: z.number().min(0).max(720).exactOptional(),
    untilDry: z.literal(true).exactOptional(),
    ...printed,
  })
  .refine(({ hours, untilDry }) => hours !== undefined || untilDry === true, 'needs hours or untilDry')
/** Days from a treatment until seed or sod may go onto the ground. */
export const PlantingWait = z.strictObject({ days: WholeDays, ...printed })
/** What new turf needs before its first treatment: days, mowings, or both. */
export const NewTurfWait = z.strictObject({
  days: WholeDays.exactOptional(),
  mowings: z.int().min(1).max(50).exactOptional(),
  ...printed,
})
export type NewTurfWait = z.infer<typeof NewTurfWait>
export const WaterBuffer = z.strictObject({ distance: Figure, ...printed })
export const TankMix = z.strictObject({
  /** Names of the partners that the label allows; when given, no other may go in. */
  allowed: z.array(Name).exactOptional(),
  forbidden: z.array(Name).exactOptional(),
  ...printed,
})

/** Every limit that a label may print. What is not here the label does not say. */
export const Limits = z.strictObject({
  perApplication: z.array(ApplicationLimit).exactOptional(),
  perYear: z.array(YearlyLimit).exactOptional(),
  treatments: z.array(CountLimit).exactOptional(),
  interval: z.array(IntervalLimit).exactOptional(),
  minimumOutput: z.strictObject({ output: Figure, ...printed }).exactOptional(),
  adjuvant: Adjuvant.exactOptional(),
  temperature: TemperatureLimit.exactOptional(),
  wind: WindLimit.exactOptional(),
  droplets: DropletRule.exactOptional(),
  rainFree: RainFree.exactOptional(),
  mowing: Mowing.exactOptional(),
  watering: Watering.exactOptional(),
  keepOff: KeepOff.exactOptional(),
  seedAfter: PlantingWait.exactOptional(),
  sodAfter: PlantingWait.exactOptional(),
  worksThrough: WorksThrough.exactOptional(),
  newSeed: NewTurfWait.exactOptional(),
  newSod: NewTurfWait.exactOptional(),
  waterBuffer: WaterBuffer.exactOptional(),
  tankMix: TankMix.exactOptional(),
  /** The label forbids using less than its lowest rate. */
  lessForbidden: z.strictObject(printed).exactOptional(),
  /** The label may be used against the weeds that it lists and no other. */
  onlyListedWeeds: z.strictObject(printed).exactOptional(),
})
export type Limits = z.infer<typeof Limits>
