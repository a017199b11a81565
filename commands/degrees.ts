import { FIGURES, letCorrect, withFields } from '#src/conversation/ask-figures.ts'
import { withSet } from '#src/conversation/ask-for.ts'
import { countDegrees, FORM } from '#src/degrees/count.ts'
import { DegreesOptions } from '#src/degrees/options.ts'
import { defineCommand } from '#src/desk/command.ts'

/** Degree days of typed or pasted daily temperatures, by a named method, base and first day. */
export default defineCommand({
  name: 'degrees',
  may: 'crew',
  options: DegreesOptions,
  state: DegreesOptions,
  start: (given, tools) => countDegrees(given, tools),
  async next(given, event, tools) {
    if (event.kind === 'press') return countDegrees(DegreesOptions.parse(withSet(given, event.value)), tools)
    if (event.step !== FIGURES) return countDegrees(given, tools)
    const merged = DegreesOptions.parse(withFields(given, event.fields))
    return letCorrect(await countDegrees(merged, tools), FORM, event.fields)
  },
})
