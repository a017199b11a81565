import type { z } from 'zod'
import { withSet } from '#src/conversation/ask-for.ts'
import type { Answer, Event, Tools } from './command.ts'

/** The `next` of a command that goes on with what was said so far and what a press has added. */
export function again<Options extends z.ZodObject>(
  options: Options,
  run: (given: z.infer<Options>, tools: Tools) => Promise<Answer>,
) {
  return (given: z.infer<Options>, event: Event, tools: Tools): Promise<Answer> =>
    run(options.parse(withSet(given, event.value)), tools)
}
