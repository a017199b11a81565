import { z } from 'zod'
import { PlainDay } from '#src/label/day.ts'
import { DropletRule } from '#src/label/limits.ts'
import { Decimal, Output, quantityOf } from '#src/quantity/rate.ts'
import { volumeUnits } from '#src/quantity/units.ts'
import { LabelCheck } from './label-check.ts'
import { maybe, Removed } from './not-recorded.ts'
import { Amount, ProductUsed } from './product.ts'
import {
  Address,
  AreaSize,
  compassPoints,
  FreeText,
  inversionSigns,
  Language,
  License,
  Moment,
  None,
  Person,
  Pressure,
  Rain,
  readingOf,
  ShortText,
  Speed,
  skies,
  soils,
  Temperature,
  Words,
} from './values.ts'

/** How it was put on. The last four are out of what this assistant is for. */
export const methods = [
  'backpack sprayer',
  'hand sprayer',
  'hose-end sprayer',
  'spray gun',
  'boom sprayer',
  'spot sprayer',
  'wiper',
  'broadcast spreader',
  'drop spreader',
  'other',
  'aerial',
  'drone',
  'chemigation',
  'fumigation',
] as const

const Volume = quantityOf(volumeUnits)
const Readings = <S extends z.ZodType>(value: S) => z.array(readingOf(value)).min(1).max(12)

/** What only the store writes, and nobody amends. */
const fixed = {
  number: ShortText,
  writtenAt: Moment,
  writtenBy: z.union([Person, Removed]),
  writtenThrough: ShortText,
  chatLanguage: Language,
  /** Which rule table was asked, and the state whose it is. */
  rules: z.strictObject({
    table: ShortText,
    state: z
      .string()
      .regex(/^[A-Z]{2}$/)
      .exactOptional(),
  }),
}

/** Everything that somebody says of an application. Each may be "not recorded", and may be amended. */
const said = {
  // The tank.
  mixNumber: maybe(ShortText),
  mixedAt: maybe(Moment),
  mixMade: maybe(Volume),
  /** What this site drew from the mix. */
  mixDrawn: maybe(Volume),
  /** Concentrate and diluent of the whole mix. */
  recipe: maybe(z.strictObject({ concentrate: Amount, diluent: Volume })),
  /** Which of the sites sprayed from one tank this one was, counted from 1. */
  siteOrder: maybe(z.strictObject({ place: z.int().min(1).max(99), of: z.int().min(1).max(99) })),
  leftover: maybe(Volume),
  leftoverFate: maybe(
    z.strictObject({
      fate: z.enum([
        'next site',
        'kept in the tank',
        'sprayed where the label allows',
        'waste service',
        'other',
      ]),
      words: Words.exactOptional(),
    }),
  ),
  mixingPlace: maybe(
    z.strictObject({ at: z.enum(['shop', 'truck at the site', 'other']), words: Words.exactOptional() }),
  ),
  carrier: maybe(z.strictObject({ kind: z.enum(['water', 'none', 'other']), words: Words.exactOptional() })),
  carrierAmount: maybe(Volume),
  totalMix: maybe(Amount),
  output: maybe(Output),
  adjuvants: maybe(z.array(z.strictObject({ name: ShortText, amount: maybe(Amount) })).max(6)),

  // When.
  date: maybe(PlainDay),
  startedAt: maybe(Moment),
  endedAt: maybe(Moment),
  nightWork: maybe(z.boolean()),

  // For whom and where.
  forHire: maybe(z.boolean()),
  customerName: maybe(ShortText),
  customerAddress: maybe(Address),
  siteId: z.int().exactOptional(),
  areaId: z.int().exactOptional(),
  placeAddress: maybe(Address),
  county: maybe(ShortText),
  placeWords: maybe(FreeText),
  placeMark: maybe(z.strictObject({ latitude: Decimal, longitude: Decimal })),
  use: maybe(ShortText),
  grounds: maybe(z.enum(['turf', 'greenhouse', 'nursery', 'sod farm', 'indoors'])),
  turfs: maybe(z.array(ShortText).min(1).max(8)),
  treatedArea: maybe(AreaSize),
  areaBasis: maybe(z.enum(['measured', 'spot calibration', 'estimate'])),
  coverage: maybe(z.enum(['whole area', 'spots', 'strip'])),
  sameGround: maybe(z.enum(['first time', 'same spots', 'other spots', 'missed strip', 'unknown'])),

  // What.
  targets: maybe(
    z
      .array(z.strictObject({ words: ShortText, taxon: ShortText.exactOptional() }))
      .min(1)
      .max(12),
  ),
  products: maybe(z.array(ProductUsed).min(1).max(6)),
  fertilizer: maybe(z.strictObject({ applied: z.boolean(), ownRecord: ShortText.exactOptional() })),
  method: maybe(z.strictObject({ kind: z.enum(methods), words: Words.exactOptional() })),
  sprayer: maybe(ShortText),
  nozzle: maybe(ShortText),
  pressure: maybe(Pressure),
  droplets: maybe(DropletRule.shape.classes.element),

  // The day.
  windSpeed: maybe(Readings(Speed)),
  windFrom: maybe(Readings(z.enum(compassPoints))),
  temperature: maybe(Readings(Temperature)),
  humidityPercent: maybe(Readings(Decimal)),
  sky: maybe(Readings(z.enum(skies))),
  soil: maybe(Readings(z.enum(soils))),
  rain: maybe(Readings(Rain)),
  /** Hours from the end of the work to the first rain after it, as somebody told later. */
  rainAfter: maybe(z.strictObject({ hours: Decimal })),
  /** Signs of an inversion that were seen; an empty list when somebody looked and saw none. */
  inversion: maybe(z.array(z.enum(inversionSigns)).max(5)),

  // Who.
  applicator: maybe(Person),
  license: maybe(z.union([None, License])),
  supervisor: maybe(z.union([None, z.strictObject({ ...Person.shape, license: License })])),
  helpers: maybe(z.array(Person).max(12)),
  training: maybe(z.strictObject({ on: PlainDay, by: ShortText, title: ShortText })),
  company: maybe(ShortText),
  companyLicense: maybe(ShortText),
  companyAddress: maybe(Address),

  // Safety and people around.
  handsWashed: maybe(z.boolean()),
  ppe: maybe(z.strictObject({ text: z.array(ShortText).min(1).max(20), confirmed: z.boolean() })),
  keepOff: maybe(ShortText),
  keepOffUntil: maybe(z.union([Moment, z.strictObject({ untilDry: z.literal(true) })])),
  customerTold: maybe(z.boolean()),
  posting: maybe(z.strictObject({ done: z.boolean(), at: Moment.exactOptional() })),
  notices: maybe(
    z
      .array(
        z.strictObject({
          to: z.enum(['customer', 'neighbor', 'registry']),
          done: z.boolean(),
          at: Moment.exactOptional(),
        }),
      )
      .max(12),
  ),
  customerCopy: maybe(z.strictObject({ sentOn: PlainDay, how: z.enum(['paper', 'email', 'text message']) })),
  consent: maybe(
    z.strictObject({ given: z.boolean(), on: PlainDay.exactOptional(), how: z.enum(['written', 'spoken']) }),
  ),
  unusual: maybe(
    z.strictObject({
      happened: z.boolean(),
      words: Words.exactOptional(),
      incidentId: z.int().exactOptional(),
    }),
  ),
  lateNote: maybe(z.strictObject({ by: Person, words: FreeText })),
  notes: maybe(FreeText),
  recheckOn: maybe(PlainDay),
  /** Hashes of pictures taken with it. */
  photos: maybe(z.array(z.string().regex(/^[0-9a-f]{64}$/)).max(20)),

  // What the label said to it when it was written, and how long it is kept.
  labelCheck: maybe(LabelCheck),
  keepUntil: maybe(PlainDay),
}

const Said = z.strictObject(said)

/** An application record as it is kept. A value in it is what somebody said, or "not recorded", or was never asked. */
export const ApplicationRecord = z.strictObject({ ...fixed, ...said })
export type ApplicationRecord = z.infer<typeof ApplicationRecord>

/** A record on its way: whatever has been said so far. It has no number yet. */
export const RecordDraft = Said
export type RecordDraft = z.infer<typeof RecordDraft>

/** A field that somebody says, and that an amendment may change. */
export type FieldId = keyof typeof said
/** A field that is written once. */
export type FixedId = keyof typeof fixed

/** In the order in which they are printed. */
export const fieldIds = Object.keys(said) as readonly FieldId[]
export const fixedIds = Object.keys(fixed) as readonly FixedId[]

export function isFieldId(text: string): text is FieldId {
  return Object.hasOwn(said, text)
}

/** The schema of one field, for reading a change to it. */
export function schemaOfField(field: FieldId): z.ZodType {
  return Said.shape[field]
}

/**
 * Fields that hold personal data: names, home addresses, license numbers. They enter the chain as salted commitments
 * and can be removed later. So does everything that somebody typed freely, wherever it stands.
 */
export const personalFields = [
  'writtenBy',
  'customerName',
  'customerAddress',
  'placeAddress',
  'placeMark',
  'applicator',
  'license',
  'supervisor',
  'helpers',
  'training',
  'companyAddress',
  'lateNote',
] as const satisfies readonly (FieldId | FixedId)[]
export type PersonalField = (typeof personalFields)[number]

export function isPersonal(field: string): field is PersonalField {
  return (personalFields as readonly string[]).includes(field)
}
