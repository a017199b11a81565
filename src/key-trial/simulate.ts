import { type Comparison, comparisonAnswers, comparisonsFor, type Found } from '#src/key/comparison.ts'
import { type Model, modelOf } from '#src/key/model.ts'
import { canStillEnd } from '#src/key/patience.ts'
import type { Posterior } from '#src/key/posterior.ts'
import { rankQuestions } from '#src/key/question.ts'
import type { Cell, KeyData } from '#src/key/schema.ts'
import { DEFAULT_SETTINGS, type Settings } from '#src/key/settings.ts'
import type { Verdict } from '#src/key/verdict.ts'
import { type Answer, type TurfContext, type Walk, withAnswer } from '#src/key/walk.ts'
import { weigh } from '#src/key/weighing.ts'
import { type Observer, observe } from './observer.ts'

/** A plant in the field: its cells and what stands in for blank ones. */
export type Specimen = {
  readonly cells: Readonly<Record<string, Cell>>
  readonly mates: (character: string) => readonly Cell[]
}

export type Ending = {
  readonly verdict: Verdict
  readonly questions: number
  /** Characters that were held against the plant after a name was given. */
  readonly compared: number
  readonly answers: readonly Answer[]
}

/** How often a second look only repeats the first answer, right or wrong. */
const REPEATED = 0.3

function lookAgain(former: Answer | undefined, fresh: Answer, observer: Observer): Answer {
  return former !== undefined && observer.random() < REPEATED ? former : fresh
}

const firstQuestions = new WeakMap<KeyData, Map<string, string | null>>()

/** How often something that does not fit a name is let pass: people see what they expect. Judgement, no source. */
const LET_PASS = 0.2
/** A name that does not fit is looked into this often; then whoever walks has had enough of it. */
const COMPARED_TIMES = 3

/**
 * Walks the key to its end: a result, no question worth asking, or the longest walk that the settings allow. A weed
 * that was named is compared with the plant; what does not fit is told to the key, which costs one more question.
 */
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
  let compared = 0
  const look = (id: string) => lookAt(model, specimen, id, observer)
  for (let comparing = 0; ; ) {
    const weighing = weigh(model, walk)
    const { posterior, verdict } = weighing
    const ending = { verdict, questions, compared, answers: walk.answers }
    if (verdict.result === 'weed' && comparing < COMPARED_TIMES) {
      const comparisons = comparisonsFor(weighing, verdict.unit)
      comparing++
      compared += comparisons.length
      const found = compare(comparisons, look, observer)
      if (found.clashes.length === 0) return { ...ending, compared }
      walk = comparisonAnswers(comparisons, found).reduce(withAnswer, walk)
      questions++
      continue
    }
    if (verdict.result !== 'hold' || !canStillEnd(model, weighing, settings.maxQuestions - questions)) {
      return ending
    }
    const next = nextCharacter(walk, () => bestQuestion(model, posterior, walk), key)
    if (next === null) return ending
    const former = walk.answers.find((one) => one.character === next)
    walk = withAnswer(walk, lookAgain(former, look(next), observer))
    questions++
  }
}

function bestQuestion(model: Model, posterior: Posterior, walk: Walk): string | undefined {
  return rankQuestions(model, posterior, walk)[0]?.compiled.character.id
}

function lookAt(model: Model, specimen: Specimen, id: string, observer: Observer): Answer {
  const character = model.characterOf.get(id)?.character
  if (character === undefined) throw new Error(`No character ${id}`)
  return observe(character, specimen.cells[id] ?? { kind: 'blank' }, specimen.mates(id), observer)
}

/** Holds each character against the plant, with the same mistakes as in any other look. */
function compare(
  comparisons: readonly Comparison[],
  look: (id: string) => Answer,
  observer: Observer,
): Found {
  const clashes: string[] = []
  const unseen: string[] = []
  for (const { character, fits, other } of comparisons) {
    const seen = look(character)
    const shown = seen.kind === 'states' ? seen.states : []
    const isClash = seen.kind === 'absent' || shown.some((state) => other.includes(state))
    if (!isClash && !shown.some((state) => fits.includes(state))) unseen.push(character)
    else if (isClash && observer.random() >= LET_PASS) clashes.push(character)
  }
  return { clashes, unseen }
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
