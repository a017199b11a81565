import { type Reason, reason } from '#src/weather/reason.ts'
import type { ConditionsOptions } from './options.ts'

type Said = NonNullable<ConditionsOptions['clothing'] | ConditionsOptions['ground']>

/** What has to be there, and who has to be gone, before anything is opened, whatever the weather. */
export function judgeAtHand({ clothing, ground }: ConditionsOptions): readonly Reason[] {
  return [clothing, ground].flatMap((said) => (said === undefined ? [] : (STOPS[said] ?? [])))
}

const STOPS: Readonly<Partial<Record<Said, Reason>>> = {
  'gear missing': reason('refusal', 'conditions.gear-missing'),
  'no wash water': reason('hold', 'conditions.wash-missing'),
  'people on it': reason('hold', 'conditions.near-people'),
  'pets on it': reason('hold', 'conditions.near-pets'),
  'school or day care': reason('hold', 'conditions.near-school'),
}
