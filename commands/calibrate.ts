import { z } from 'zod'
import { FIGURES, letCorrect, withFields } from '#src/conversation/ask-figures.ts'
import { withSet } from '#src/conversation/ask-for.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { calibrate, FORM } from '#src/outputs/calibrate.ts'
import { keepFound } from '#src/outputs/keep.ts'
import { CalibrateOptions } from '#src/outputs/options.ts'

/** `@keep`: the result is wanted for a sprayer, and only names are still open. */
const State = z.strictObject({ ...CalibrateOptions.shape, '@keep': z.boolean().optional() })
type State = z.infer<typeof State>

/** How much this person with this sprayer puts out: by hand, by ounces, by boom, by nozzle, by spreader. */
export default defineCommand({
  name: 'calibrate',
  may: 'crew',
  options: CalibrateOptions,
  state: State,
  stateVersion: 2,
  start: (given, tools) => work(given, tools),
  async next(state, event, tools) {
    if (event.step === 'keep') return work({ ...state, '@keep': true }, tools)
    if (event.kind === 'press') return work(State.parse(withSet(state, event.value)), tools)
    if (event.step !== FIGURES) return work(state, tools)
    const merged = State.parse(withFields(state, event.fields))
    return letCorrect(await work(merged, tools), FORM, event.fields)
  },
})

async function work(state: State, tools: Tools): Promise<Answer> {
  const { '@keep': keeps, ...given } = state
  const worked = calibrate(given, tools)
  if (!worked.ok || keeps !== true || !worked.isGood || worked.found.keep === null) return worked.answer
  return { ...(await keepFound(given, worked.found, tools)), state }
}
