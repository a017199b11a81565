import { literalText, type Param, say, type Text } from '#src/conversation/text.ts'
import type { Assessment, Reason, Standing } from '#src/key/index.ts'
import { taxonById } from '#src/plants.ts'
import type { WalkBody } from '#src/store/walks.ts'
import type { Live } from './state.ts'
import { sayAnswer, sayCell, sayPart, sayPlant } from './words.ts'

const NAMED = 6
const REASONS = 5
const CHECKS = 3

/** "4 plants fit: Centipedegrass, …". */
export function possibleLine({ remaining }: Standing): Text {
  const named: Param[] = remaining.slice(0, NAMED).map(({ id }) => sayPlant(id))
  const more = remaining.length - NAMED
  const plants = more > 0 ? [...named, say('identify.more', { more })] : named
  return say('identify.remaining', { count: remaining.length, plants: { all: plants } })
}

/** Whether what somebody came with still stands. */
export function guessLine({ guess, answers }: WalkBody, { result, remaining, taxon }: Standing): Text[] {
  if (guess === null || answers.length === 0) return []
  const named = taxon?.members.map(({ id }) => id) ?? []
  const stands =
    result === 'hold' ? remaining.some(({ id }) => guess.ids.includes(id)) : overlaps(guess.ids, named)
  const id =
    result === 'weed' && stands
      ? 'identify.guess-right'
      : stands
        ? 'identify.guess-open'
        : 'identify.guess-out'
  return [say(id, { guess: guessName(guess) })]
}

/** One plant by its name in the reader's language; a word that means several as it was typed. */
function guessName({ words, ids }: NonNullable<WalkBody['guess']>): Param {
  const [only, ...more] = ids
  return only === undefined || more.length > 0 ? words : say(`plant.${only}`)
}

const overlaps = (one: readonly string[], other: readonly string[]) => one.some((id) => other.includes(id))

/** How to come back to this walk, today or next week. */
export function walkLine({ number }: Live): Text[] {
  if (number === null) return []
  return [say('identify.walk', { command: literalText(`/key resume:${number}`) })]
}

/** What spoke for a name, the strongest first, and what against it. */
export function reasonLines({ spokeFor, spokeAgainst }: Assessment): Text[] {
  const seen = (reasons: readonly Reason[]) => ({
    all: reasons.slice(0, REASONS).map(({ answer }) => sayAnswer(answer)),
  })
  return [
    ...(spokeFor.length === 0 ? [] : [say('identify.for', { seen: seen(spokeFor) })]),
    ...spokeAgainst.slice(0, 2).map(againstLine),
  ]
}

function againstLine({ character, answer, expected }: Reason): Text {
  const listed = sayCell(character, expected)
  const seen = sayAnswer(answer)
  return listed === null
    ? say('identify.against', { seen })
    : say('identify.against-listed', { seen, listed })
}

/**
 * The look-alikes that matter here, with the way to check each: those that are this lawn's own grass first, then those
 * that the answers have not ruled out; where nothing is left to mix it up with, the two most dangerous ones.
 */
export function checkLines(
  { lookAlikes, remaining, taxon }: Assessment,
  { guarded }: { readonly guarded: readonly string[] },
): Text[] {
  const possible = remaining.map(({ id }) => id)
  const named = taxon?.members.map(({ id }) => id) ?? []
  const foreign = lookAlikes.filter(({ takenFor }) => takenFor.some((id) => !named.includes(id)))
  const own = foreign.filter(({ takenFor }) => overlaps(takenFor, guarded))
  const open = foreign.filter((one) => !own.includes(one) && overlaps(one.takenFor, possible))
  const near = [...own, ...open].slice(0, CHECKS)
  return (near.length > 0 ? near : foreign.slice(0, 2)).map(({ n }) =>
    say('identify.check', { check: say(`look-alike.${n}`) }),
  )
}

/** Plants that are told apart in the field by a rule of thumb that no source gives. */
const RULE_OF_THUMB = new Set(['carpet-common', 'carpet-tropical'])
const WITH = new Set(['centipede', 'st-augustine'])

/** Common practice, no source: stands beside the published descriptions, and says so. */
export function ruleOfThumb(ids: readonly string[]): Text[] {
  const meets = ids.some((id) => RULE_OF_THUMB.has(id)) && ids.some((id) => WITH.has(id))
  return meets ? [say('identify.practice-carpetgrass')] : []
}

/**
 * "Tropical carpetgrass (Axonopus compressus)"; a group by its own name with all that it stands for, by their scientific
 * names where its own says them all.
 */
export function nameOf({ taxon }: Standing): Text {
  if (taxon === undefined) return say('identify.unnamed')
  const { group, members, id, scientificName } = taxon
  if (group === undefined) return say('identify.name', { plant: sayPlant(id), scientific: scientificName })
  const all = members.map((member) => (group.saysAll ? member.scientificName : sayPlant(member.id)))
  return say('identify.group', { group: say(`plant-group.${group.id}`), plants: { all, join: 'or' } })
}

export const partsOf = (characters: readonly string[]) => ({ all: characters.map(sayPart) })

/** Plants most easily taken for the named one, this lawn's grasses first: for the picture beside it. */
export function rivalsOf(
  { lookAlikes, remaining }: Assessment,
  { named, guarded }: { readonly named: readonly string[]; readonly guarded: readonly string[] },
): string[] {
  const taken = lookAlikes.flatMap(({ takenFor }) => (takenFor.length <= 4 ? takenFor : []))
  const near = [...guarded, ...taken, ...remaining.map(({ id }) => id)]
  return [...new Set(near)].filter((id) => !named.includes(id) && taxonById(id) !== undefined)
}
