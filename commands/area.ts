import { z } from 'zod'
import { FIGURES, letCorrect, withFields } from '#src/conversation/ask-figures.ts'
import { withSet } from '#src/conversation/ask-for.ts'
import type { Choice } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { keepArea } from '#src/ground/keep-area.ts'
import { showKeptArea } from '#src/ground/kept-area.ts'
import { answerArea, FORM, measureArea } from '#src/ground/measure-area.ts'
import { AreaOptions } from '#src/ground/options.ts'
import { shapeMeant } from '#src/ground/read-shape.ts'

/** `@keep`: the size is wanted for a property. `@new`: the name of its area is no slip. */
const State = z.strictObject({
  ...AreaOptions.shape,
  '@keep': z.boolean().optional(),
  '@new': z.boolean().optional(),
})
type State = z.infer<typeof State>

/** How large a piece of ground is, less beds and buildings, with a drawing of what was measured. */
export default defineCommand({
  name: 'area',
  may: 'crew',
  options: AreaOptions,
  state: State,
  stateVersion: 2,
  start: (given, tools) => measure(given, tools),
  async next(state, event, tools) {
    if (event.step === 'keep') return measure({ ...state, '@keep': true }, tools)
    if (event.kind === 'press') return measure(State.parse(withSet(state, event.value)), tools)
    if (event.step !== FIGURES) return measure(state, tools)
    const merged = State.parse(withFields(state, event.fields))
    return letCorrect(await measure(merged, tools), { form: FORM }, event.fields)
  },
})

async function measure(state: State, tools: Tools): Promise<Answer> {
  const { '@keep': keeps, '@new': isNew, ...given } = state
  const nothing = shapeMeant(given) === undefined && given.more === undefined && given.minus === undefined
  const kept = nothing && given.site !== undefined ? await showKeptArea(given, tools) : null
  if (kept !== null) return kept
  const measured = measureArea(given, tools)
  if (!measured.ok) return { ...measured.ask, state }
  if (keeps !== true) return answerArea(given, measured.value, tools.isLead ? [keepChoice(given)] : [])
  return { ...(await keepArea(given, measured.value, tools, isNew === true)), state }
}

function keepChoice({ site, area }: AreaOptions): Choice {
  const label =
    site === undefined || area === undefined
      ? say('ground.keep')
      : say('ground.keep-as', { name: area, site })
  return { label, to: { step: 'keep' }, who: 'lead' }
}
