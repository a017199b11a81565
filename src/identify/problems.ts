import { say, type Text } from '#src/conversation/text.ts'
import type { ObservedProblem } from '#src/key/index.ts'
import { sayPart, sayShort } from './words.ts'

/** Sentences for words that were not understood, with what would be. */
export function sayProblems(problems: readonly ObservedProblem[]): Text[] {
  return problems.map(sayProblem)
}

const OFFERED = 12

function sayProblem(problem: ObservedProblem): Text {
  const { text } = problem
  switch (problem.kind) {
    case 'unknown-character':
      return say('identify.problem.unknown-character', { text })
    case 'unknown-state':
      return say('identify.problem.unknown-state', {
        text,
        part: sayPart(problem.character),
        allowed: {
          all: problem.allowed.slice(0, OFFERED).map((state) => sayShort(problem.character, state)),
          join: 'or',
        },
      })
    case 'ambiguous':
      return say('identify.problem.ambiguous', {
        text,
        parts: { all: problem.characters.map(sayPart), join: 'or' },
      })
    case 'not-a-number':
      return say('identify.problem.not-a-number', { text, part: sayPart(problem.character) })
    case 'twice':
      return say('identify.problem.twice', { text, part: sayPart(problem.character) })
    default:
      return problem satisfies never
  }
}
