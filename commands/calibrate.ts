import { z } from 'zod'
import { withSet } from '#src/conversation/ask-for.ts'
import { textOf } from '#src/conversation/fields.ts'
import { defineCommand } from '#src/desk/command.ts'
import { calibrate, keep } from '#src/outputs/calibrate.ts'
import { CalibrateOptions } from '#src/outputs/options.ts'

const State = z.strictObject({
  given: CalibrateOptions,
  output: z.strictObject({ value: z.string(), unit: z.string() }).nullable(),
})

/** How much this person with this sprayer puts out: by hand, by ounces, by boom, by nozzle, by spreader. */
export default defineCommand({
  name: 'calibrate',
  may: 'crew',
  options: CalibrateOptions,
  state: State,
  start: (given, tools) => calibrate(given, tools),
  async next({ given, output }, event, tools) {
    const added =
      event.kind === 'submit'
        ? Object.fromEntries(
            Object.keys(event.fields).map((name) => [name, typedAs(name, textOf(event.fields, name))]),
          )
        : event.value
    const merged = CalibrateOptions.parse(withSet(given, added))
    return output === null ? calibrate(merged, tools) : keep(merged, output, tools)
  },
})

/** Counts are numbers; everything else is read with its unit. */
function typedAs(name: string, text: string): string | number {
  return name === 'spots' && /^\d+$/.test(text) ? Number(text) : text
}
