import { z } from 'zod'

/** Words for people by language; English always, other languages where known. */
export const Words = z.strictObject({ en: z.string().min(1), es: z.string().min(1).optional() })
export type Words = z.infer<typeof Words>

const Id = z.string().regex(/^[a-z0-9][a-z0-9.-]*$/i)
const CharacterId = z.string().regex(/^[a-z][a-z_]*$/)

/**
 * One state of a character.
 * `alike`: states it is taken for by mistake. `decisive`: one sight of it rules out a plant that lacks it.
 * `neutral`: an answer that says nothing about the plant ("no seed head to see").
 * `absence`: the state that means "it has no such part". `from`, `to`: the span of a class of numbers.
 */
export const State = z.strictObject({
  id: Id,
  words: Words,
  draw: z.string().min(1),
  aka: z.array(z.string().min(1)),
  alike: z.array(Id).optional(),
  from: z.number().optional(),
  to: z.number().optional(),
  decisive: z.boolean().optional(),
  neutral: z.boolean().optional(),
  absence: z.boolean().optional(),
  needsHead: z.boolean().optional(),
  /** Words that mean it only beside the name of the character: "long", of ears. */
  withPart: z.array(z.string().min(1)).optional(),
})
export type State = z.infer<typeof State>

/**
 * A character.
 * `family`: characters whose mistakes go together. `kind`: `one` of its states holds on a shoot, `many` may hold
 * together, `range` and `month` are numbers, `hallmark` counts for a plant and never against it.
 * `effort`: how much asking it costs, an easy look being 1. `mown`: can it be seen in cut turf.
 * `part`: it sits on a seed head or a flower. `asked: false`: never asked, only taken when given.
 */
export const Character = z.strictObject({
  id: CharacterId,
  family: Id,
  kind: z.enum(['one', 'many', 'range', 'month', 'hallmark']),
  ask: Words,
  ease: z.enum(['easy', 'medium', 'hard']),
  effort: z.number().positive(),
  mown: z.enum(['yes', 'partly', 'mostly', 'no']),
  reliability: z.enum(['very-good', 'good', 'fair', 'weak']),
  aka: z.array(z.string().min(1)),
  grid: z.array(z.number()).min(2).optional(),
  part: z.enum(['head', 'flower']).optional(),
  asked: z.boolean().optional(),
  states: z.array(State).min(1),
  /** Its names beside a number only: "leaf 6 mm"; and words beside which a number is none of it: "leaf 6 mm long". */
  partOfNumber: z.array(z.string().min(1)).optional(),
  notWith: z.array(z.string().min(1)).optional(),
})
export type Character = z.infer<typeof Character>

const Phrases = z.array(z.string().min(1))

/** How crews say what they see, in one language: names of characters, whole phrases for a state, words beside a name. */
export const CrewWords = z.record(
  CharacterId,
  z.strictObject({
    part: Phrases.optional(),
    partOfNumber: Phrases.optional(),
    notWith: Phrases.optional(),
    states: z.record(Id, Phrases).optional(),
    withPart: z.record(Id, Phrases).optional(),
  }),
)
export type CrewWords = z.infer<typeof CrewWords>

/** Plants that are treated alike and may be answered under one name. */
export const Group = z.strictObject({
  id: Id,
  name: Words,
  members: z.array(Id).min(2),
  /** The name already says all members. */
  saysAll: z.literal(true).optional(),
  source: z.string().min(1),
})
export type Group = z.infer<typeof Group>

/**
 * Plants that pass for one another. `sides`: lists of plant ids; `@grass` and the like stand for a whole plant group.
 * `tells`: the characters that tell them apart, best first. `needs`: what it takes to see them.
 */
export const LookAlike = z.strictObject({
  n: z.int().positive(),
  sides: z.array(z.array(z.string().min(1)).min(1)).min(2),
  tells: z.array(CharacterId).min(1),
  needs: z.enum(['mown', 'head', 'dig', 'none']),
  turfRisk: z.enum(['high', 'medium', 'low', 'none']),
  words: Words,
  sources: z.array(z.string().min(1)),
  partlyFromMemory: z.boolean(),
})
export type LookAlike = z.infer<typeof LookAlike>

/** The weeds that crews meet most; met more often, they are expected a little more. */
export const CommonWeeds = z.strictObject({ source: z.string().min(1), taxa: z.array(Id).min(1) })
export type CommonWeeds = z.infer<typeof CommonWeeds>

export const Source = z.strictObject({ id: z.string().min(1), citation: z.string().min(1) })
export type Source = z.infer<typeof Source>

/** The fixed columns of the table of plants; the characters follow them as columns of their own. */
export const TaxonRow = z.object({
  id: Id,
  common_name: z.string().min(1),
  scientific_name: z.string().min(1),
  other_names: z.string(),
  es_name: z.string(),
  es_other: z.string(),
  es_source: z.string(),
  role: z.enum(['turf', 'weed', 'either']),
  turf_where: z.string(),
  sources: z.string(),
  cell_sources: z.string(),
  memory_cells: z.string(),
})
export type TaxonRow = z.infer<typeof TaxonRow>

/**
 * One cell of the table. `sources` are ids of data/taxa/sources.json; `memory`: recalled, not looked up.
 * `blank`: unknown, never counts. `na`: this plant has no such part.
 */
export type Cell =
  | {
      readonly kind: 'states'
      readonly states: readonly string[]
      readonly memory: boolean
      readonly sources: readonly string[]
    }
  | {
      readonly kind: 'range'
      readonly from: number
      readonly to: number
      readonly memory: boolean
      readonly sources: readonly string[]
    }
  | { readonly kind: 'blank' }
  | { readonly kind: 'na' }

export type Taxon = {
  readonly id: string
  readonly names: Words
  readonly otherNames: readonly string[]
  readonly spanishNames: readonly string[]
  readonly spanishSource: string
  readonly scientificName: string
  readonly role: TaxonRow['role']
  readonly turfWhere: string
  readonly cells: Readonly<Record<string, Cell>>
}

/** Every character, plant, group and look-alike of the key, checked against one another. */
export type KeyData = {
  readonly characters: readonly Character[]
  readonly taxa: readonly Taxon[]
  readonly groups: readonly Group[]
  readonly lookAlikes: readonly LookAlike[]
  readonly commonWeeds: readonly string[]
  readonly sources: readonly Source[]
}
