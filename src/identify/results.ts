import { type Choice, type Form, type Reply, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Assessment } from '#src/key/index.ts'
import { compareForm, compareLines } from './compare.ts'
import { factsOf } from './facts.ts'
import {
  checkLines,
  guessLine,
  nameOf,
  partsOf,
  possibleLine,
  reasonLines,
  rivalsOf,
  ruleOfThumb,
  walkLine,
} from './lines.ts'
import { comparePicture } from './pictures.ts'
import { guardedOf, type Place, turfWords } from './place.ts'
import { choice, wayBack } from './question.ts'
import type { Live } from './state.ts'
import { sayAnswer, sayPart } from './words.ts'

const TELLING = 4

/** A weed by name: why, what passes for it, and the only way on that leads to a product. */
export function weedPage(walk: Live, place: Place, assessment: Assessment): Reply {
  const named = assessment.taxon?.members.map(({ id }) => id) ?? []
  const rivals = rivalsOf(assessment, { named, guarded: guardedOf(place) })
  return page('answer', say('identify.weed', { name: nameOf(assessment) }), walk, assessment, {
    lines: [
      ...reasonLines(assessment),
      ...compareLines(assessment),
      say(place.turf.kind === 'unknown' ? 'identify.clear-of-all' : 'identify.clear-of', {
        turfs: turfWords(place),
      }),
      ...guessLine(walk.body, assessment),
      ...checkLines(assessment, { guarded: guardedOf(place) }),
      ...ruleOfThumb([...named, ...rivals]),
    ],
    choices: [
      { ...choice('identify.products', { step: 'products' }), look: 'main' },
      ...wayBack,
      choice('identify.flag-doubt', { step: 'flag' }),
    ],
    form: compareForm(assessment),
    compared: [...named.slice(0, 1), ...rivals.slice(0, 2)],
    tells: tellsOf(assessment),
  })
}

/** The lawn's own grass: nothing here leads to a product. */
export function ownPage(walk: Live, place: Place, assessment: Assessment): Reply {
  const named = assessment.taxon?.members.map(({ id }) => id) ?? []
  const rivals = rivalsOf(assessment, { named, guarded: guardedOf(place) })
  return page('hold', say('identify.own', { name: nameOf(assessment) }), walk, assessment, {
    lines: [
      say('identify.dont-spray-own'),
      ...reasonLines(assessment),
      ...guessLine(walk.body, assessment),
      ...checkLines(assessment, { guarded: guardedOf(place) }),
      ...ruleOfThumb([...named, ...rivals]),
    ],
    choices: [
      ...wayBack,
      choice('identify.flag-doubt', { step: 'flag' }),
      choice('identify.leave', { step: 'leave' }),
    ],
    compared: [...named.slice(0, 1), ...rivals.slice(0, 2)],
    tells: tellsOf(assessment),
  })
}

/** What a hold still offers: which answers to look at again, what to look for, and what to do instead of spraying. */
export function holdPage(walk: Live, place: Place, assessment: Assessment): Reply {
  const { holdReason = 'not-sure', lookFor, likelyWrong, advice, remaining, open } = assessment
  const ids = remaining.map(({ id }) => id)
  const doubted = holdReason === 'turf-unknown' ? [] : likelyWrong
  return page('hold', say(`identify.hold.${holdReason}`), walk, assessment, {
    lines: [
      say('identify.dont-spray'),
      possibleLine(assessment),
      ...(lookFor.length === 0 ? [] : [say('identify.look-for', { parts: partsOf(lookFor) })]),
      ...(doubted.length === 0
        ? []
        : [say('identify.likely-wrong', { seen: { all: doubted.map(({ answer }) => sayAnswer(answer)) } })]),
      ...guessLine(walk.body, assessment),
      ...checkLines(assessment, { guarded: guardedOf(place) }),
      ...ruleOfThumb(ids),
      say('identify.instead'),
      say('identify.sample-short'),
      ...walkLine(walk),
    ],
    choices: [
      ...(holdReason === 'turf-unknown' ? [choice('identify.which-turf', { step: 'which-turf' })] : []),
      ...(open ? [{ ...choice('identify.go-on', { step: 'here' }), look: 'main' as const }] : []),
      ...doubted.map(({ character }): Choice => {
        return {
          label: say('identify.again', { part: sayPart(character) }),
          to: { step: 'again', value: character },
        }
      }),
      choice('identify.flag', { step: 'flag' }),
      choice('identify.leave', { step: 'leave' }),
      ...(advice.includes('wait-for-seed-head') ? [choice('identify.wait', { step: 'wait' })] : []),
      choice('identify.ask-lead', { step: 'ask-lead' }),
      choice('identify.sample', { step: 'sample' }),
      ...(walk.body.answers.length === 0 ? [] : wayBack),
    ],
    compared: ids.slice(0, TELLING),
    tells: lookFor.length > 0 ? lookFor : tellsOf(assessment),
  })
}

function tellsOf({ lookAlikes }: Assessment): string[] {
  return [...new Set(lookAlikes.slice(0, TELLING).flatMap(({ tells }) => tells))]
}

function page(
  outcome: 'answer' | 'hold',
  title: Text,
  walk: Live,
  assessment: Assessment,
  parts: {
    readonly lines: readonly Text[]
    readonly choices: readonly Choice[]
    readonly compared: readonly string[]
    readonly tells: readonly string[]
    readonly form?: Form | null
  },
): Reply {
  const picture = comparePicture(parts.compared, parts.tells)
  return reply(outcome, title, {
    lines: [...parts.lines],
    facts: factsOf(assessment, { walk: walk.number }),
    working: walk.body.answers.map(sayAnswer),
    choices: [...parts.choices],
    form: parts.form ?? null,
    files: picture === null ? [] : [picture],
    safety: { about: ['identification'] },
  })
}
