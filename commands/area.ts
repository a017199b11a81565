import { z } from 'zod'
import { withSet } from '#src/conversation/ask-for.ts'
import { textOf } from '#src/conversation/fields.ts'
import { defineCommand } from '#src/desk/command.ts'
import { keepArea, measure } from '#src/ground/measure.ts'
import { AreaOptions } from '#src/ground/options.ts'

const State = z.strictObject({ given: AreaOptions, squareFeet: z.string().nullable() })

/** How large a piece of ground is, less beds and buildings, with a drawing of what was measured. */
export default defineCommand({
  name: 'area',
  may: 'crew',
  options: AreaOptions,
  state: State,
  start: (given, tools) => measure(given, tools),
  async next({ given, squareFeet }, event, tools) {
    const added =
      event.kind === 'submit'
        ? Object.fromEntries(Object.keys(event.fields).map((name) => [name, textOf(event.fields, name)]))
        : event.value
    const merged = AreaOptions.parse(withSet(given, added))
    return squareFeet === null ? measure(merged, tools) : keepArea(merged, squareFeet, tools)
  },
})
