import { defineCommand } from '#src/desk/command.ts'
import { convert, convertOn } from '#src/rates/convert.ts'
import { RateOptions } from '#src/rates/options.ts'

/** Says a label rate in another unit, on bands, or what a gallon of the mix covers. */
export default defineCommand({
  name: 'rate',
  may: 'crew',
  options: RateOptions,
  state: RateOptions,
  stateVersion: 2,
  start: async (given, tools) => convert(given, tools),
  next: async (given, event, tools) => convertOn(given, event, tools),
})
