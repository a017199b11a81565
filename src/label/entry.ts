import { z } from 'zod'
import { PlainDay } from './day.ts'
import { Limits } from './limits.ts'
import { Figure, Name, NamedTurf, printed, Words } from './printed.ts'
import { RateLine } from './rate-line.ts'

export const Form = z.enum(['dry', 'liquid'])
export type Form = z.infer<typeof Form>

/** Formulation codes as the trade prints them behind a product's name. */
export const Formulation = z.enum([
  'WP',
  'WDG',
  'WG',
  'DF',
  'SP',
  'SG',
  'WSP',
  'G',
  'EC',
  'EW',
  'SC',
  'F',
  'SE',
  'ME',
  'CS',
  'OD',
  'SL',
  'S',
  'L',
])
export type Formulation = z.infer<typeof Formulation>

/** Signal words in the order of a label's front panel; `none` where the label prints none. */
export const SignalWord = z.enum(['DANGER-POISON', 'DANGER', 'WARNING', 'CAUTION', 'none'])
export type SignalWord = z.infer<typeof SignalWord>

/** What the product holds of one active ingredient, as its ingredient statement says. */
export const Active = z.strictObject({
  name: Name,
  /** `75 % ai`, `4 lb ai/gal`, `480 g ai/L`. */
  strength: Figure,
  /** Acid equivalent, where the label prints one: `3.1 lb ae/gal`. */
  acid: Figure.exactOptional(),
  /** Mode-of-action group as printed. */
  group: z.string().trim().min(1).max(12).exactOptional(),
})
export type Active = z.infer<typeof Active>

/** Numbers that say which product this is. A minimum-risk product has none and says so. */
export const Registration = z.strictObject({
  number: z.string().trim().min(1).max(40).exactOptional(),
  exempt25b: z.literal(true).exactOptional(),
  /** Special Local Need number, valid in the state that gave it. */
  specialLocalNeed: z.string().trim().min(1).max(20).exactOptional(),
  /** Number given by a state where it registers products itself. */
  stateNumber: z.string().trim().min(1).max(40).exactOptional(),
  /** Where it is registered, by two letters, if the crew keeps that. */
  states: z
    .array(z.string().regex(/^[A-Z]{2}$/))
    .min(1)
    .exactOptional(),
})
export type Registration = z.infer<typeof Registration>

/** First aid as the label prints it, by the way of contact. */
export const FirstAid = z.strictObject({
  after: z.enum(['swallowed', 'skin', 'eyes', 'breathed', 'any']),
  words: Words,
})
export type FirstAid = z.infer<typeof FirstAid>

/** Texts that are repeated to whoever mixes or sprays. */
export const SafetyText = z.strictObject({
  mixing: z.array(Words).min(1),
  spraying: z.array(Words).min(1),
  keepOff: Words.exactOptional(),
  firstAid: z.array(FirstAid).exactOptional(),
  spill: Words.exactOptional(),
  environment: Words.exactOptional(),
})
export type SafetyText = z.infer<typeof SafetyText>

/**
 * One product of a crew's label book, typed from the label in its hands. Figures are kept as printed; whatever the
 * label does not say is left out. The label always wins over this copy.
 */
export const LabelEntry = z.strictObject({
  name: Name,
  /** Invented, for practice only. */
  demo: z.literal(true).exactOptional(),
  form: Form,
  formulation: Formulation,
  registration: Registration,
  actives: z.array(Active).min(1).max(6),
  /** Restricted use: only a certified person, or somebody under one, may use it. */
  restricted: z.boolean(),
  /** Kills every green plant that it reaches. */
  nonSelective: z.literal(true).exactOptional(),
  signalWord: SignalWord,
  label: z.strictObject({ version: z.string().trim().min(1).max(40), date: PlainDay }),
  rateLines: z.array(RateLine).min(1).max(40),
  excludedTurfs: z.array(z.strictObject({ ...NamedTurf.shape, ...printed })).exactOptional(),
  toleranceNotes: z
    .array(z.strictObject({ words: Words, turfs: z.array(z.string()).min(1).exactOptional() }))
    .exactOptional(),
  limits: Limits,
  safety: SafetyText,
  /** What the maker's own scoop holds, level: `0.5 oz wt`. Only a scoop that came with this product. */
  scoop: z.strictObject({ name: Name, holds: Figure, ...printed }).exactOptional(),
  /** The label's own order of filling the tank, where it differs from the usual one. */
  mixingOrder: z.array(Words).min(2).exactOptional(),
  notes: z.array(Words).exactOptional(),
})
export type LabelEntry = z.infer<typeof LabelEntry>
