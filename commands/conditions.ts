import { z } from 'zod'
import { judgeDay } from '#src/conditions/judge.ts'
import { ConditionsOptions, ConditionsState } from '#src/conditions/options.ts'
import { FORM } from '#src/conditions/questions.ts'
import { FIGURES, letCorrect } from '#src/conversation/ask-figures.ts'
import { withSet } from '#src/conversation/ask-for.ts'
import { textOf } from '#src/conversation/fields.ts'
import { defineCommand } from '#src/desk/command.ts'
import { inversionSigns } from '#src/weather/readings.ts'

/** Wind, heat, rain and the state of the grass, held against this product's label and what is published. */
export default defineCommand({
  name: 'conditions',
  may: 'crew',
  options: ConditionsOptions,
  state: ConditionsState,
  stateVersion: 2,
  start: (given, tools) => judgeDay(given, tools),
  async next(given, event, tools) {
    if (event.kind === 'press') {
      const added = event.step === 'sign' ? { '@signs': looked(given, event.value) } : event.value
      return judgeDay(ConditionsState.parse(withSet(given, added)), tools)
    }
    if (event.step !== FIGURES) return judgeDay(given, tools)
    const merged = ConditionsState.parse(withSet(given, typed(event.fields)))
    return letCorrect(await judgeDay(merged, tools), FORM, event.fields)
  },
})

const Pressed = z.object({
  sign: z.enum([...inversionSigns, 'none']),
  open: z.array(z.enum(inversionSigns)),
})

/** A sign that was seen, or that none of those asked for was. */
function looked(given: ConditionsState, value: unknown): ConditionsState['@signs'] {
  const { sign, open } = Pressed.parse(value)
  const found = sign === 'none' ? Object.fromEntries(open.map((one) => [one, false])) : { [sign]: true }
  return { ...given['@signs'], ...found }
}

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
