import { say } from '#src/conversation/text.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { withCoverage } from '../start.ts'
import { bad, choiceOf, chosenOf, good, type LogField } from './field.ts'

const COVERAGES = ['whole area', 'spots', 'strip'] as const
const GROUNDS = ['same spots', 'other spots', 'missed strip', 'unknown'] as const

/** How much of the area: a press in the log, a list where it is put right. The whole of it is as large as the book says. */
export const coverage: LogField = {
  keys: [],
  shape: choiceOf(COVERAGES, (id) => say(`logging.coverage.${id}`)),
  show: ({ draft }) => recorded(draft.coverage) ?? '',
  read(text, { area }) {
    const found = chosenOf(COVERAGES, text)
    return found === undefined
      ? bad(say('logging.not-in-list', { typed: text }))
      : good(withCoverage({}, found, area))
  },
}

/** Whether it was the ground of the treatment before: limits hang on it, so a slip of the finger can be put right. */
export const sameGround: LogField = {
  keys: [],
  shape: choiceOf(GROUNDS, (id) => say(`logging.ground.${id}`)),
  show: ({ draft }) => recorded(draft.sameGround) ?? '',
  read(text) {
    const found = chosenOf(GROUNDS, text)
    return found === undefined
      ? bad(say('logging.not-in-list', { typed: text }))
      : good({ sameGround: found })
  },
}
