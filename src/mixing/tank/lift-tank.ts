import type { Answer, FieldValue, Tools } from '#src/desk/command.ts'
import { keepLift } from '../lift.ts'
import type { MixOptions } from '../options.ts'
import { readAlso } from './also.ts'
import { givenFor } from './part.ts'

/** Keeps one reason for every product of the tank; null when it was kept. */
export async function keepTankLift(
  given: MixOptions,
  fields: Readonly<Record<string, FieldValue>>,
  tools: Tools,
): Promise<Answer | null> {
  const count = given.also === undefined ? 1 : readAlso(given.also).length + 1
  for (let index = 0; index < count; index++) {
    const problem = await keepLift(givenFor(given, index), fields, tools)
    if (problem !== null) return { ...problem, state: given }
  }
  return null
}
