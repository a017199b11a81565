import type { KeyData } from '#src/key/schema.ts'
import { isCloseUp, unsplitPairs } from '#src/key/unsplit.ts'
import type { Answer } from '#src/key/walk.ts'
import { randomStream } from './random.ts'
import { CANT_TELL } from './runs.ts'
import { simulateWalk } from './simulate.ts'
import { matesOf } from './truth.ts'

/**
 * How walks ended on plants that mown turf does not tell from the lawn they stand in. `plainWalks`: those in which no
 * close-up was answered; `plainAsPair`: those of them that named the plant, or took it for the lawn, all the same; `plainOther`: that named
 * a third plant.
 */
export type UnsplitCounts = {
  walks: number
  held: number
  right: number
  wrong: number
  ownTurf: number
  plainWalks: number
  plainAsPair: number
  plainOther: number
}

export type UnsplitPlan = {
  readonly errors: number
  readonly seedHeads: boolean
  readonly walksEach: number
  readonly seed: number
}

/** Walks every unsplit plant in the lawn of its turf. */
export function runUnsplit(key: KeyData, plan: UnsplitPlan): UnsplitCounts {
  const counts: UnsplitCounts = {
    walks: 0,
    held: 0,
    right: 0,
    wrong: 0,
    ownTurf: 0,
    plainWalks: 0,
    plainAsPair: 0,
    plainOther: 0,
  }
  const random = randomStream(plan.seed)
  const observer = { errors: plan.errors, cantTell: CANT_TELL, seedHeads: plan.seedHeads, random }
  const mates = matesOf(key)
  for (const [turf, others] of unsplitPairs(key)) {
    for (const other of others) {
      const [lawn, plant] = [key.taxa[turf], key.taxa[other]]
      if (lawn === undefined || plant === undefined) continue
      const specimen = { cells: plant.cells, mates: (character: string) => mates(plant, character) }
      for (let walk = 0; walk < plan.walksEach; walk++) {
        const ending = simulateWalk(key, specimen, { kind: 'record', turfs: [lawn.id] }, observer)
        const { verdict } = ending
        const isRight = verdict.result === 'weed' && verdict.unit.members.includes(other)
        counts.walks++
        if (verdict.result === 'hold') counts.held++
        else if (verdict.result === 'own-turf') counts.ownTurf++
        else if (isRight) counts.right++
        else counts.wrong++
        if (ending.answers.some((answer) => showsCloseUp(key, answer))) continue
        counts.plainWalks++
        if (isRight || verdict.result === 'own-turf') counts.plainAsPair++
        else if (verdict.result === 'weed') counts.plainOther++
      }
    }
  }
  return counts
}

/** Whether an answer says something on a close-up; "none seen" and "none of these" do not. */
function showsCloseUp(key: KeyData, answer: Answer): boolean {
  const character = key.characters.find((one) => one.id === answer.character)
  if (character === undefined || answer.kind === 'cant-tell' || !isCloseUp(character)) return false
  if (answer.kind !== 'states') return true
  return answer.states.some((id) => character.states.find((state) => state.id === id)?.neutral !== true)
}

/** One line for people. */
export function unsplitText(counts: UnsplitCounts, seedHeads: boolean): string {
  const percent = (part: number, whole: number) => `${((100 * part) / Math.max(whole, 1)).toFixed(1)} %`
  const of = (part: number) => percent(part, counts.walks)
  return (
    `Unsplit pairs ${seedHeads ? 'with' : 'without'} seed heads (${counts.walks} walks): held ${of(counts.held)}, ` +
    `named right ${of(counts.right)}, named wrong ${of(counts.wrong)}, taken for the lawn ${of(counts.ownTurf)}; ` +
    `of ${counts.plainWalks} walks without a close-up ${counts.plainAsPair} decided the pair, ` +
    `${counts.plainOther} named a third plant`
  )
}
