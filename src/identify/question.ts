import { field } from '#src/conversation/fields.ts'
import type { Choice, Form, Step } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer as Answered } from '#src/desk/command.ts'
import type { Character, Question, Standing, State } from '#src/key/index.ts'
import { plants, taxonById } from '#src/plants.ts'
import { factsOf } from './facts.ts'
import { guessLine, possibleLine, walkLine } from './lines.ts'
import { questionPicture } from './pictures.ts'
import { type Place, turfWords } from './place.ts'
import type { Live } from './state.ts'
import { sayAnswer, sayQuestion, sayShort, sayState } from './words.ts'

/** The most drawings that one picture shows large enough for a phone; what is left comes on a second page. */
const SHOWN = 12

/** One question: its states in words, as a picture and as buttons, and every way out of it. */
export function questionPage(
  walk: Live,
  place: Place,
  standing: Standing,
  question: Question,
  { others = false }: { readonly others?: boolean } = {},
): Answered {
  const { character } = question
  const pages = split(question, standing)
  const states = others ? pages.others : pages.first
  const isFirst = walk.body.answers.length === 0
  return {
    reply: reply('question', sayQuestion(character.id), {
      lines: [
        ...states.map((state, at) =>
          say('identify.state', { n: at + 1, state: sayState(character.id, state.id) }),
        ),
        ...(question.again ? [say('identify.look-again')] : []),
        ...(isFirst ? [] : [say('identify.so-far'), possibleLine(standing)]),
        ...(isFirst ? [say('identify.guarded', { turfs: turfWords(place) })] : []),
        ...guessLine(walk.body, standing),
        ...walkLine(walk),
      ],
      facts: factsOf(standing, { question: character.id, walk: walk.number }),
      working: walk.body.answers.map(sayAnswer),
      choices: [
        ...states.map((state, at) => stateChoice(character, state, at)),
        ...(!others && pages.others.length > 0
          ? [choice('identify.others', { step: 'others', value: character.id })]
          : []),
        ...(question.offersAbsent && character.kind !== 'hallmark' && !others
          ? [choice('identify.has-none', answerStep({ kind: 'absent', character: character.id }))]
          : []),
        choice('identify.cant-tell', answerStep({ kind: 'cant-tell', character: character.id })),
        ...(others ? [choice('identify.first-ones', { step: 'here' })] : []),
        ...(isFirst ? [] : wayBack),
        { ...choice('identify.stop', { step: 'stop' }), look: 'stop' },
      ],
      form: observedForm(''),
      files: [questionPicture(character, states)],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

export const choice = (label: string, to: Step): Choice => ({ label: say(label), to })

export const wayBack: readonly Choice[] = [
  choice('common.back', { step: 'back' }),
  choice('identify.start-over', { step: 'over' }),
]

const answerStep = (answer: { kind: 'absent' | 'cant-tell'; character: string }): Step => ({
  step: 'answer',
  value: answer,
})

function stateChoice({ id }: Character, state: State, at: number): Choice {
  return {
    label: say('identify.button', { n: at + 1, state: sayShort(id, state.id) }),
    to: { step: 'answer', value: { kind: 'states', character: id, states: [state.id] } },
  }
}

/** Whoever sees several things at once, or has measured, types them; a photo is kept with the walk. */
export function observedForm(value: string, problems = false): Form {
  return {
    title: say('identify.form.title'),
    open: say(problems ? 'common.correct-it' : 'identify.form.open'),
    fields: [
      field('identify.form', 'observed', { kind: 'long-text', hint: true, maxLength: 1500, value }),
      field('identify.form', 'photo', { kind: 'file', hint: true }),
    ],
    to: { step: 'typed' },
  }
}

/**
 * Many states are two pages: first those of the plants that are still likely, with "nothing to see" among them; then
 * the others. Within a page they keep the order of the data.
 */
function split(
  { character, states }: Question,
  { remaining }: Standing,
): { readonly first: readonly State[]; readonly others: readonly State[] } {
  if (states.length <= SHOWN) return { first: states, others: [] }
  const weights = new Map<string, number>()
  for (const { id, share } of remaining) {
    const cell = taxonById(id)?.cells[character.id]
    for (const state of cell?.kind === 'states' ? cell.states : [])
      weights.set(state, (weights.get(state) ?? 0) + share)
  }
  const likely = states
    .filter(({ neutral }) => neutral !== true)
    .sort((one, other) => (weights.get(other.id) ?? 0) - (weights.get(one.id) ?? 0))
    .slice(0, SHOWN - 1)
  const first = states.filter((state) => state.neutral === true || likely.includes(state))
  return { first, others: states.filter((state) => !first.includes(state)) }
}

/** A question about a character of one's own choosing: a second look, or a head that was said to be there. */
export function questionOn(id: string, again: boolean): Question | null {
  const character = plants().characters.find((one) => one.id === id)
  if (character === undefined) return null
  return { character, states: character.states, offersAbsent: false, again }
}

export function ask(title: Text, lines: readonly Text[], choices: readonly Choice[]) {
  return reply('question', title, {
    lines: [...lines],
    choices: [...choices],
    audience: 'person',
    safety: { about: ['identification'] },
  })
}
