import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { ControlMethod, JudgeNote } from '#src/efficacy/judge.ts'
import type { RatingProblem } from '#src/efficacy/rating.ts'
import type { ControlBand, ControlStep } from '#src/efficacy/scale.ts'
import type { Reason } from '#src/label/verdict.ts'
import type { DueState } from './due.ts'
import type { LookProblem } from './next.ts'
import type { LookFor, Purpose } from './table.ts'

export const sayLookFor = (id: LookFor): Text => say(`recheck.look-for-${id}`)
export const sayPurpose = (id: Purpose): Text => say(`recheck.purpose-${id}`)
export const sayState = (id: DueState): Text => say(`recheck.state-${id}`)
export const sayStep = (step: ControlStep): Text => say(`recheck.step-${step}`)
/** @param step 9 to 1 */
export const sayInjury = (step: number): Text => say(`recheck.injury-${step}`)
export const sayBand = (id: ControlBand): Text => say(`recheck.band-${id}`)
export const sayMethod = (id: ControlMethod): Text => say(`recheck.by-${id}`)
export const sayNote = (id: JudgeNote): Text => say(`recheck.note-${id}`)

/** A reason of a decision, the crew's own or the label's. */
export const sayWhy = ({ id, with: parameters }: Reason): Text => say(id, parameters)

/** Why a look cannot be changed like that. */
export function sayLookProblem(problem: LookProblem): Text {
  switch (problem.kind) {
    case 'unknown-look':
      return say('recheck.problem-unknown-look', { look: problem.look })
    case 'closed':
      return say('recheck.problem-closed')
    case 'before-treatment':
      return say('recheck.problem-before-treatment', { day: { day: problem.treatedOn } })
    case 'too-early':
      return say('recheck.problem-too-early', { from: { day: problem.from } })
    case 'reason-needed':
      return say('recheck.problem-reason-needed')
    case 'day-off':
      return problem.next === null
        ? say('recheck.problem-no-workday')
        : say('recheck.problem-day-off', { day: { day: problem.next } })
    case 'before-earlier-look':
      return say('recheck.problem-before-earlier-look', { day: { day: problem.earliest } })
    case 'before-interval':
      return say('recheck.problem-before-interval', { day: { day: problem.notBefore } })
  }
}

/** Why a rating cannot be kept. */
export function sayRatingProblem(problem: RatingProblem): Text {
  switch (problem.kind) {
    case 'before-treatment':
      return say('recheck.rating-before-treatment', { day: { day: problem.treatedOn } })
    case 'in-the-future':
      return say('recheck.rating-in-the-future', { day: { day: problem.today } })
    case 'plot-twice':
      return say('recheck.rating-plot-twice', { plot: problem.plot })
    case 'plot-unknown':
      return say('recheck.rating-plot-unknown', { plot: problem.plot })
  }
}
