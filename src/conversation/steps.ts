import type { Step as Worked } from '#src/calculator/worked.ts'
import { say, type Text } from './text.ts'

/** A step of the working, or a finding, as a sentence. */
export function sayStep(step: Worked): Text {
  return say(step.id, step.with)
}

/** An amount as a fact's value: a plain number, which is what scripts and tables want. */
export function factValue(value: string): number {
  return Number(Number(value).toPrecision(12))
}
