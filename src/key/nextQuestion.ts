import { canStillEnd } from './patience.ts'
import { isGone, rankQuestions } from './question.ts'
import type { Character, KeyData, State } from './schema.ts'
import type { Walk } from './walk.ts'
import { type Weighing, weighingOf } from './weighing.ts'

/**
 * The question to ask next. `states`: what to offer, in the order of the data, "none seen" or "none of these" among
 * them; "can't tell" is always offered beside them. `offersAbsent`: offer "it has no such part".
 * `again`: it was answered before, and that answer speaks against the leading name: ask for a second look.
 */
export type Question = {
  readonly character: Character
  readonly states: readonly State[]
  readonly offersAbsent: boolean
  readonly again: boolean
}

/** The question with the best expected information per effort; null when there is a result or nothing worth asking. */
export function nextQuestion(key: KeyData, walk: Walk): Question | null {
  return questionAfter(weighingOf(key, walk))
}

/** The same for answers that have been weighed already. */
export function questionAfter(weighing: Weighing): Question | null {
  const { model, posterior, verdict, walk } = weighing
  const left = model.settings.maxQuestions - asked(walk)
  if (verdict.result !== 'hold' || !canStillEnd(model, weighing, left)) return null
  const best = rankQuestions(model, posterior, walk)[0]
  if (best === undefined) return null
  const { character, outcomes } = best.compiled
  return {
    character,
    states: character.kind === 'hallmark' ? offeredHallmarks(weighing, character) : character.states,
    offersAbsent: character.part === undefined && outcomes.some((outcome) => outcome.id === 'absent'),
    again: best.again,
  }
}

/** How many questions this walk has cost: answers and second looks. */
export function asked(walk: Walk): number {
  return walk.answers.reduce(
    (sum, answer) => sum + (answer.kind !== 'cant-tell' && answer.confirmed !== undefined ? 2 : 1),
    0,
  )
}

const HALLMARKS_OFFERED = 8

/** The hallmarks of the plants that are still possible; to offer all would bury the one that matters. */
function offeredHallmarks({ model, posterior, walk }: Weighing, character: Character): State[] {
  const { share } = posterior
  const noHead = isGone('head', walk)
  const weight = new Map<string, number>()
  model.key.taxa.forEach((taxon, index) => {
    const cell = taxon.cells[character.id]
    for (const state of cell?.kind === 'states' ? cell.states : []) {
      weight.set(state, (weight.get(state) ?? 0) + (share[index] ?? 0))
    }
  })
  const ranked = character.states
    .filter(
      (state) => state.neutral !== true && weight.has(state.id) && !(noHead && state.needsHead === true),
    )
    .sort((a, b) => (weight.get(b.id) ?? 0) - (weight.get(a.id) ?? 0))
    .slice(0, HALLMARKS_OFFERED)
  return [...ranked, ...character.states.filter((state) => state.neutral === true)]
}
