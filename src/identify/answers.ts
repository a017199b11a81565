import { Answer, type Walk, withAnswer } from '#src/key/index.ts'
import { plants } from '#src/plants.ts'
import type { WalkBody } from '#src/store/walks.ts'

/**
 * The answers of a walk are kept as they came, so that "back" takes back exactly one; the key weighs them folded, with
 * second looks in place of the first.
 */
export function foldAnswers(answers: readonly Answer[]): Answer[] {
  const empty: Walk = { turf: { kind: 'unknown' }, answers: [], mown: true }
  return answers.reduce((walk, answer) => withAnswer(withoutBlank(walk, answer), answer), empty).answers
}

/** A head that has come up since is no second look at "no seed head to see". */
function withoutBlank(walk: Walk, { character }: Answer): Walk {
  return { ...walk, answers: walk.answers.filter((one) => one.character !== character || !isBlank(one)) }
}

function isBlank(answer: Answer): boolean {
  if (answer.kind !== 'states') return false
  const states = plants().characters.find(({ id }) => id === answer.character)?.states ?? []
  return answer.states.every((seen) => states.some(({ id, neutral }) => id === seen && neutral === true))
}

/** The walk with one more answer. */
export function plusAnswer(body: WalkBody, answer: unknown): WalkBody {
  return plusAnswers(body, [Answer.parse(answer)])
}

export function plusAnswers(body: WalkBody, added: readonly Answer[]): WalkBody {
  const describesHead = added.some(({ character }) => character === 'seedhead')
  return {
    ...body,
    answers: [...body.answers, ...added],
    hasHead: body.hasHead && !describesHead,
  }
}

/**
 * What somebody types again only to have it there is no second look: an answer that says the same as before is left
 * out. Words of another person, or of another day, come in as new answers.
 */
export function newAnswers(body: WalkBody, typed: readonly Answer[]): Answer[] {
  const known = new Map(foldAnswers(body.answers).map((answer) => [answer.character, answer]))
  return typed.filter((answer) => {
    const former = known.get(answer.character)
    return former === undefined || !sameSight(former, answer)
  })
}

function sameSight(one: Answer, other: Answer): boolean {
  const { confirmed: _one, ...seen } = { confirmed: undefined, ...one }
  const { confirmed: _other, ...again } = { confirmed: undefined, ...other }
  return JSON.stringify(seen) === JSON.stringify(again)
}
