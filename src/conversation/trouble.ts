import { type QuantityProblem, quantityMessage } from '#src/quantity/problem.ts'
import { say, type Text } from './text.ts'

/** The sentence for a quantity that could not be read. What was typed is repeated, and escaped by the messenger. */
export function quantityTrouble(problem: QuantityProblem): Text {
  const { id, parameters } = quantityMessage(problem)
  return say(id, parameters)
}
