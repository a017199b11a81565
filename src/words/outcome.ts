import type { Outcome } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'

/**
 * Each outcome has its word and its own mark, told apart by shape alone: colors carry no meaning, and none of the
 * words is a signal word of labels.
 */
const MARKS = {
  answer: '✓',
  'heads-up': '▲',
  question: '?',
  hold: '‖',
  refusal: '✕',
} as const satisfies Record<Outcome, string>

/** The mark of an outcome, one character. */
export function outcomeMark(outcome: Outcome): string {
  return MARKS[outcome]
}

/** The word of an outcome. */
export function outcomeWord(outcome: Outcome): Text {
  return say(`outcome.${outcome}`)
}
