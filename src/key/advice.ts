import type { Verdict } from './verdict.ts'
import type { Walk } from './walk.ts'

/** What to do next, as ids that the words of each language are kept under. */
export type AdviceId =
  | 'dont-spray'
  | 'see-products'
  | 'check-look-alikes'
  | 'which-turf'
  | 'check-answers'
  | 'flag-it'
  | 'leave-it'
  | 'wait-for-seed-head'
  | 'ask-lead-with-photo'
  | 'take-sample'
  | 'compare-with-good-turf'

/** Advice for a result, the most useful first. */
export function adviceFor(verdict: Verdict, walk: Walk): AdviceId[] {
  if (verdict.result === 'weed') return ['check-look-alikes', 'see-products']
  if (verdict.result === 'own-turf') return ['dont-spray', 'compare-with-good-turf', 'leave-it']
  const first: AdviceId[] =
    verdict.reason === 'turf-unknown'
      ? ['which-turf']
      : verdict.reason === 'none-fits'
        ? ['check-answers']
        : ['compare-with-good-turf']
  const wait: AdviceId[] = headSeen(walk) ? [] : ['wait-for-seed-head']
  return ['dont-spray', ...first, 'flag-it', 'leave-it', ...wait, 'ask-lead-with-photo', 'take-sample']
}

function headSeen(walk: Walk): boolean {
  return walk.answers.some(
    (answer) =>
      answer.character === 'seedhead' && answer.kind === 'states' && !answer.states.includes('none-seen'),
  )
}
