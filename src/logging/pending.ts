import { MOST_FIELDS } from '#src/record/step-list.ts'
import { stepsLeft } from '#src/record/steps.ts'
import { entriesOf, type LogEnv } from './env.ts'

/** Asked by press before the forms. */
const PRESSED = new Set(['handsWashed', 'unusual'])

/** Names of everything that is still to be typed, in the order in which it is asked. */
export function pendingFields(env: LogEnv): readonly string[] {
  const { draft, mix } = env
  const asked = stepsLeft(draft, env.rules, entriesOf(env)).flatMap(({ fields }) => fields)
  // What was drawn from the mix tells the amounts, so that nobody reckons them by hand.
  const own = mix !== null && draft.mixDrawn === undefined ? ['mixDrawn'] : []
  // What is left, and so what became of it, is known only then.
  const told = new Set(own.length === 0 ? [] : ['amount', 'totalMix', 'carrier', 'recipe', 'leftoverFate'])
  const rest = asked.filter((name) => !PRESSED.has(name) && !told.has(name))
  const spots = draft.coverage === 'spots' || draft.coverage === 'strip'
  const basis = spots && draft.areaBasis === undefined ? ['areaBasis'] : []
  return inOrder([...own, ...rest, ...basis])
}

/** What somebody knows at once comes first: when, how much, where. The weather is read off together. */
const FIRST = [
  'startedAt',
  'endedAt',
  'mixDrawn',
  'treatedArea',
  'areaBasis',
  'product',
  'registration',
  'amount',
  'rate',
  'targets',
  'date',
]

function inOrder(names: readonly string[]): string[] {
  const unique = [...new Set(names)]
  return [...FIRST.filter((name) => unique.includes(name)), ...unique.filter((name) => !FIRST.includes(name))]
}

/** The fields of the next short form; none when all is said. */
export function nextForm(env: LogEnv): readonly string[] {
  return pendingFields(env).slice(0, MOST_FIELDS)
}

/** Short forms that are still to come, this one included. */
export function formsLeft(env: LogEnv): number {
  return Math.ceil(pendingFields(env).length / MOST_FIELDS)
}
