import { askFor } from '#src/conversation/ask-for.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import type { Situation } from '#src/label/situation.ts'
import { compareOutcomes, type Reason, type Verdict } from '#src/label/verdict.ts'
import type { Ready } from './ready.ts'
import type { Named } from './resolve.ts'

/**
 * Limits bind ground that was treated before. When nobody has said whether it is the same, and other ground would
 * be answered more mildly, that is the question.
 */
export function askWhichGround(
  { given, situation }: Pick<Ready, 'given' | 'situation'>,
  verdict: Verdict,
  judge: (situation: Situation) => Verdict,
): Answer | null {
  if (given.spots !== undefined || situation.treatments.length === 0) return null
  const other = judge({
    ...situation,
    treatments: situation.treatments.map((one) => ({ ...one, sameGround: false })),
  })
  if (compareOutcomes(other.outcome, verdict.outcome) >= 0) return null
  return askFor(
    given,
    say('mixing.which-ground'),
    [
      { label: say('mixing.ground-same'), set: { spots: 'same' } },
      { label: say('mixing.ground-other'), set: { spots: 'other' } },
      { label: say('mixing.ground-missed'), set: { spots: 'missed strip' } },
    ],
    { safety: { about: ['spraying'] } },
  )
}

/** What stands in the way, the strictest first; null when nothing does. */
export function verdictFor(
  { named, lifted }: Pick<Ready, 'named' | 'lifted'>,
  verdict: Verdict,
): Verdict | null {
  const reasons = verdict.reasons.filter(
    (reason) => !isUnchecked(reason, named) && !(lifted !== null && reason.outcome === 'hold'),
  )
  const first = reasons.find(({ outcome }) => outcome !== 'answer' && outcome !== 'heads-up')
  return first === undefined ? null : { ...verdict, outcome: first.outcome, reasons }
}

/** Without a site nothing is known of the ground: that is a note of its own and not a hold. */
function isUnchecked({ id, outcome }: Reason, { site }: Named): boolean {
  return site === null && id === 'label.turf-unknown' && outcome === 'hold'
}
