import { FIGURES, letCorrect, withFields } from '#src/conversation/ask-figures.ts'
import { withSet } from '#src/conversation/ask-for.ts'
import { defineCommand } from '#src/desk/command.ts'
import { dilution, FORM } from '#src/dilution/dilution.ts'
import { DiluteOptions } from '#src/dilution/options.ts'

/** How much product makes a spray of so many percent, or of so many parts per million. */
export default defineCommand({
  name: 'dilute',
  may: 'crew',
  stopsAfterExposure: true,
  options: DiluteOptions,
  state: DiluteOptions,
  start: async (given, tools) => dilution(given, tools),
  async next(given, event, tools) {
    if (event.kind === 'press') return dilution(DiluteOptions.parse(withSet(given, event.value)), tools)
    if (event.step !== FIGURES) return dilution(given, tools)
    const merged = DiluteOptions.parse(withFields(given, event.fields))
    return letCorrect(dilution(merged, tools), FORM, event.fields)
  },
})
