import { FIGURES, letCorrect, withFields } from '#src/conversation/ask-figures.ts'
import { defineCommand } from '#src/desk/command.ts'
import { WaterOptions } from '#src/water/options.ts'
import { FORM, tellWater } from '#src/water/tell-water.ts'

/** What water weighs, and how much ammonium sulfate hard water needs. */
export default defineCommand({
  name: 'water',
  may: 'crew',
  options: WaterOptions,
  state: WaterOptions,
  start: async (given, tools) => tellWater(given, tools),
  async next(given, event, tools) {
    if (event.kind !== 'submit' || event.step !== FIGURES) return tellWater(given, tools)
    const merged = WaterOptions.parse(withFields(given, event.fields))
    return letCorrect(tellWater(merged, tools), FORM, event.fields)
  },
})
