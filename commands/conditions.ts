import { judgeDay } from '#src/conditions/judge.ts'
import { ConditionsOptions } from '#src/conditions/options.ts'
import { withSet } from '#src/conversation/ask-for.ts'
import { textOf } from '#src/conversation/fields.ts'
import { defineCommand } from '#src/desk/command.ts'

/** Wind, heat, rain and the state of the grass, held against this product's label and what is published. */
export default defineCommand({
  name: 'conditions',
  may: 'crew',
  options: ConditionsOptions,
  state: ConditionsOptions,
  start: (given, tools) => judgeDay(given, tools),
  async next(given, event, tools) {
    const added = event.kind === 'submit' ? typed(event.fields) : event.value
    return judgeDay(ConditionsOptions.parse(withSet(given, added)), tools)
  },
})

/** Hours are a number; everything else is read with its unit. What is no number stays out, and is asked again. */
function typed(fields: Parameters<typeof textOf>[0]): Record<string, string | number> {
  return Object.fromEntries(
    Object.keys(fields).map((name) => {
      const text = textOf(fields, name)
      if (name !== 'rain_in') return [name, text]
      const hours = Number(text.replace(',', '.').replace(/\s*h.*$/i, ''))
      return [name, text !== '' && hours >= 0 && hours <= 240 ? hours : '']
    }),
  )
}
