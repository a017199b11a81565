import { type Param, say, type Text } from '#src/conversation/text.ts'
import type { WhenProblem } from './problem.ts'

/** The sentence for a day or time that could not be read. What was typed is repeated, and escaped by the messenger. */
export function whenTrouble(problem: WhenProblem): Text {
  const parameters: Record<string, Param> = {}
  for (const [name, value] of Object.entries(problem)) {
    if (name === 'kind') continue
    if (name === 'days') parameters.days = { all: value.map((day: string) => ({ day })), join: 'or' }
    else if (name === 'day') parameters.day = { day: value }
    else if (name === 'clock') parameters.clock = { literal: value }
    else parameters[name] = value
  }
  return say(`when.${problem.kind}`, parameters)
}
