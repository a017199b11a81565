import { ticksOf } from '#src/conversation/fields.ts'
import type { Answer as Answered, Event, Tools } from '#src/desk/command.ts'
import { comparisonAnswers } from '#src/key/index.ts'
import { plusAnswers } from './answers.ts'
import { show, weigh } from './show.ts'
import type { Live } from './state.ts'

/** Takes in what does not fit, and with it that the rest does, as answers like any others. */
export async function compared(walk: Live, event: Event, tools: Tools): Promise<Answered> {
  const { compare } = (await weigh(walk, tools)).explain()
  const fields = event.kind === 'submit' ? event.fields : {}
  const clashes = ticksOf(fields, 'clashes')
  if (clashes.length === 0) return show(walk, tools)
  const answers = comparisonAnswers(compare, { clashes, unseen: ticksOf(fields, 'unseen') })
  return show({ ...walk, body: plusAnswers(walk.body, answers) }, tools)
}
