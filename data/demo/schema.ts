import { z } from 'zod'
import { Decimal, quantityOf } from '../../src/quantity/rate.ts'
import { amountUnits, volumeUnits } from '../../src/quantity/units.ts'

const Name = z.string().min(1).max(80)
/** Days before the day on which the demo crew is set up, so that its season is never out of date. */
const DaysAgo = z.int().min(0).max(3650)
const demo = { demo: z.literal(true) }

export const DemoCrew = z.strictObject({
  ...demo,
  key: Name,
  name: Name,
  language: z.enum(['en', 'es']),
  zone: Name,
  state: z.string().regex(/^[A-Z]{2}$/),
  units: z.enum(['us', 'metric']),
  tools: z
    .array(
      z.strictObject({
        kind: z.enum(['scale', 'cylinder', 'spoon', 'scoop']),
        name: Name,
        step: quantityOf(amountUnits),
        upTo: quantityOf(amountUnits),
      }),
    )
    .min(1),
})
export type DemoCrew = z.infer<typeof DemoCrew>

export const DemoPeople = z.strictObject({
  ...demo,
  people: z.array(
    z.strictObject({
      key: Name,
      name: Name,
      role: z.enum(['lead', 'crew']),
      language: z.enum(['en', 'es']),
      license: z
        .strictObject({ number: Name, expiresInDays: z.int().positive(), category: Name })
        .exactOptional(),
      /** Key of the licensed lead who named this person as deputy. */
      deputyOf: Name.exactOptional(),
    }),
  ),
})
export type DemoPerson = z.infer<typeof DemoPeople>['people'][number]

const DemoArea = z.strictObject({
  name: Name,
  squareFeet: Decimal,
  /** Taxa of the key; none when nobody has looked. */
  turfs: z.array(Name),
  use: Name,
  overseed: z
    .strictObject({ turf: Name, seededDaysAgo: DaysAgo, livesDays: z.int().positive() })
    .exactOptional(),
  seededDaysAgo: DaysAgo.exactOptional(),
  soddedDaysAgo: DaysAgo.exactOptional(),
})

export const DemoSites = z.strictObject({
  ...demo,
  sites: z.array(
    z.strictObject({
      name: Name,
      address: z.string().min(1),
      customer: Name,
      notes: z.string().exactOptional(),
      pets: z.string().exactOptional(),
      children: z.string().exactOptional(),
      water: z.string().exactOptional(),
      neighbor: z.string().exactOptional(),
      areas: z.array(DemoArea).min(1).max(3),
    }),
  ),
})
export type DemoSite = z.infer<typeof DemoSites>['sites'][number]

export const DemoSprayers = z.strictObject({
  ...demo,
  sprayers: z.array(
    z.strictObject({
      name: Name,
      kind: Name,
      tank: quantityOf(volumeUnits),
      marks: quantityOf(volumeUnits),
      tip: Name,
      pressure: Name,
      calibrations: z.array(
        z.strictObject({
          /** Key of the person in whose hands it was measured. */
          person: Name,
          output: Name,
          daysAgo: DaysAgo,
          /** Where it was measured with another tip or pressure than the sprayer has now. */
          tip: Name.exactOptional(),
          pressure: Name.exactOptional(),
        }),
      ),
    }),
  ),
})
export type DemoSprayer = z.infer<typeof DemoSprayers>['sprayers'][number]

/** When each entry was last held against its label. */
export const DemoConfirmations = z.strictObject({
  ...demo,
  usualDaysAgo: DaysAgo,
  entries: z.array(z.strictObject({ product: Name, daysAgo: DaysAgo })),
})
export type DemoConfirmations = z.infer<typeof DemoConfirmations>

export const DemoTreatments = z.strictObject({
  ...demo,
  treatments: z.array(
    z.strictObject({
      site: Name,
      area: Name,
      product: Name,
      line: Name,
      /** Product per area as it was put on. */
      rate: Name,
      daysAgo: DaysAgo,
      person: Name,
      treatedFt2: Decimal,
    }),
  ),
})
export type DemoTreatment = z.infer<typeof DemoTreatments>['treatments'][number]
