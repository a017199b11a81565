import type { Answer, Tools } from '#src/desk/command.ts'
import type { MixOptions } from './options.ts'
import { mixOne } from './run.ts'
import { mixTank } from './tank/mix-tank.ts'

/** One product, or several in one tank. */
export function mix(given: MixOptions, tools: Tools): Promise<Answer> {
  return given.also === undefined ? mixOne(given, tools) : mixTank(given, tools)
}
