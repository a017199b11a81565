import { say, type Text } from '#src/conversation/text.ts'
import { LOG_STEPS } from '#src/record/step-list.ts'
import type { LogEnv } from './env.ts'
import { logFields } from './fields/all.ts'

/** A part of what was said, small enough for one short form. */
export interface Part {
  readonly label: Text
  readonly fields: readonly string[]
}

/** Everything of a log or a record that somebody can correct, part by part, in forms of so many fields at most. */
export function partsOf(env: LogEnv, most: number): readonly Part[] {
  const steps = LOG_STEPS.flatMap(({ id, fields }): Part[] => {
    const names = fields
      .flatMap(({ name }) => withOwn(name, env))
      .filter((name) => logFields[name] !== undefined)
    const label = say(`record.step.${id}`)
    return inForms(names, most).map((one, at) => ({
      label: at === 0 ? label : say('logging.part-more', { part: label, number: at + 1 }),
      fields: one,
    }))
  })
  const ground =
    env.area === null ? [] : [{ label: say('logging.which-ground'), fields: ['coverage', 'sameGround'] }]
  return [...steps, ...ground, { label: say('logging.note'), fields: ['notes'] }]
}

/** With a mix the amounts follow from what was drawn; how a part of an area was found stands beside its size. */
function withOwn(name: string, { mix, draft }: LogEnv): readonly string[] {
  if (name === 'totalMix' && mix !== null) return ['mixDrawn']
  if (name === 'treatedArea' && draft.coverage !== 'whole area') return ['treatedArea', 'areaBasis']
  return [name]
}

function inForms(names: readonly string[], most: number): readonly (readonly string[])[] {
  return names.length === 0
    ? []
    : Array.from({ length: Math.ceil(names.length / most) }, (_, at) =>
        names.slice(at * most, (at + 1) * most),
      )
}
