import { askFor } from '#src/conversation/ask-for.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import type { Reason, Verdict } from '#src/label/verdict.ts'
import { sayReason, saySource } from '#src/label/words.ts'
import { canBeLifted } from './lift.ts'
import type { Ready } from './ready.ts'
import { safetyOf } from './safety.ts'

/** What the label, or its absence, says in the way of an answer. The label's own line stands beside each reason. */
export function answerVerdict(ready: Pick<Ready, 'given' | 'named'>, verdict: Verdict): Answer {
  const inTheWay = verdict.reasons.filter(
    (one) => one.outcome !== 'answer' && one.outcome !== 'heads-up' && !isSaidAlready(one, verdict),
  )
  // While something stands in the way, nobody has to answer questions.
  const firm = inTheWay.filter(({ outcome }) => outcome !== 'question')
  const stops = firm.length > 0 ? firm : inTheWay
  const [first, ...rest] = stops
  if (first === undefined) throw new RangeError('Nothing stands in the way')
  const lines = [...labelLine(first), ...rest.flatMap((one) => [sayReason(one), ...labelLine(one)])]
  const until = verdict.earliestNext
  const waits = first.outcome === 'refusal' && until !== null && 'next' in first.with
  const parts = {
    lines,
    facts: waits ? [{ name: 'next_treatment', value: until }] : [],
    safety: safetyOf(ready.named, false),
  }
  if (first.outcome === 'question' && first.id === 'label.dormant-unknown')
    return askFor(
      ready.given,
      sayReason(first),
      [
        { label: say('mixing.dormant-yes'), set: { dormant: true } },
        { label: say('mixing.dormant-no'), set: { dormant: false } },
      ],
      parts,
    )
  const lift = canBeLifted(ready.named, verdict)
    ? [{ label: say('mixing.lift'), to: { step: 'lift' }, who: 'lead' as const }]
    : []
  return { reply: reply(first.outcome, sayReason(first), { ...parts, choices: lift }), state: ready.given }
}

/** A grass that the label forbids is on none of its lines either: once is enough. */
export function isSaidAlready({ id, with: figures }: Reason, { reasons }: Verdict): boolean {
  return (
    NOT_LISTED.has(id) &&
    reasons.some((other) => other.id === 'label.turf-excluded' && other.with.turf === figures.turf)
  )
}
const NOT_LISTED = new Set(['label.turf-not-listed', 'label.turf-not-on-line'])

function labelLine(reason: Reason): Text[] {
  const source = saySource(reason)
  return source === null ? [] : [source]
}
