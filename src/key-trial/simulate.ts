import { modelOf } from '#src/key/model.ts'
import { canStillEnd } from '#src/key/patience.ts'
import { posteriorOf } from '#src/key/posterior.ts'
import { rankQuestions } from '#src/key/question.ts'
import type { Cell, KeyData } from '#src/key/schema.ts'
import { DEFAULT_SETTINGS, type Settings } from '#src/key/settings.ts'
import { type Verdict, verdictOf } from '#src/key/verdict.ts'
import { type Answer, type TurfContext, type Walk, withAnswer } from '#src/key/walk.ts'
import { type Observer, observe } from './observer.ts'

/** A plant in the field: its cells and what stands in for blank ones. */
export type Specimen = {
  readonly cells: Readonly<Record<string, Cell>>
  readonly mates: (character: string) => readonly Cell[]
}

export type Ending = {
  readonly verdict: Verdict
  readonly questions: number
  readonly answers: readonly Answer[]
}

/** How often a second look only repeats the first answer, right or wrong. */
const REPEATED = 0.3

function lookAgain(former: Answer | undefined, fresh: Answer, observer: Observer): Answer {
  return former !== undefined && observer.random() < REPEATED ? former : fresh
}

const firstQuestions = new WeakMap<KeyData, Map<string, string | null>>()

/** Walks the key to its end: a result, no question worth asking, or the longest walk that the settings allow. */
export function simulateWalk(
  key: KeyData,
  specimen: Specimen,
  turf: TurfContext,
  observer: Observer,
  settings: Settings = DEFAULT_SETTINGS,
): Ending {
  const model = modelOf(key, settings)
  let walk: Walk = { turf, answers: [], mown: true }
  let questions = 0
  for (;;) {
    const posterior = posteriorOf(model, walk)
    const verdict = verdictOf(model, posterior)
    const left = settings.maxQuestions - questions
    if (verdict.result !== 'hold' || !canStillEnd(model, posterior, left)) {
      return { verdict, questions, answers: walk.answers }
    }
    const next = nextCharacter(
      walk,
      () => rankQuestions(model, posterior, walk)[0]?.compiled.character.id,
      key,
    )
    if (next === null) return { verdict, questions, answers: walk.answers }
    const character = model.characterOf.get(next)?.character
    if (character === undefined) throw new Error(`No character ${next}`)
    const cell = specimen.cells[next] ?? { kind: 'blank' }
    const former = walk.answers.find((one) => one.character === next)
    const answer = lookAgain(former, observe(character, cell, specimen.mates(next), observer), observer)
    walk = withAnswer(walk, answer)
    questions++
  }
}

/** Walks share their first steps, so those questions are worked out once. */
function nextCharacter(walk: Walk, rank: () => string | undefined, key: KeyData): string | null {
  if (walk.answers.length > 2) return rank() ?? null
  const cache = firstQuestions.get(key) ?? new Map<string, string | null>()
  firstQuestions.set(key, cache)
  const state = JSON.stringify([walk.turf, walk.answers])
  const known = cache.get(state)
  if (known !== undefined) return known
  const next = rank() ?? null
  cache.set(state, next)
  return next
}
