import { askFor } from '#src/conversation/ask-for.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import { compareOutcomes, type Reason, type Verdict } from '#src/label/verdict.ts'
import { sayReason, saySource } from '#src/label/words.ts'
import { isSaidAlready } from '../answer-verdict.ts'
import { canBeLifted } from '../lift.ts'
import type { MixOptions } from '../options.ts'
import { safetyOf } from '../safety.ts'
import { verdictFor } from '../stops.ts'
import type { JudgedPart } from './part.ts'

interface Stop {
  readonly part: JudgedPart
  readonly verdict: Verdict
  readonly reason: Reason
}

/** Everything that the labels put in the way of this tank, the strictest first; null when nothing does. */
export function answerStopped(
  given: MixOptions,
  judged: readonly { readonly part: JudgedPart; readonly verdict: Verdict }[],
  kinds: readonly ('question' | 'hold' | 'refusal')[] = ['question', 'hold', 'refusal'],
): Answer | null {
  const all = judged.flatMap(({ part, verdict }): Stop[] => {
    const stopped = verdictFor(part, verdict)
    if (stopped === null) return []
    return stopped.reasons
      .filter((one) => kinds.some((kind) => kind === one.outcome) && !isSaidAlready(one, stopped))
      .map((reason) => ({ part, verdict: stopped, reason }))
  })
  const firm = all.filter(({ reason }) => reason.outcome !== 'question')
  const stops = (firm.length > 0 ? firm : all).sort((a, b) =>
    compareOutcomes(b.reason.outcome, a.reason.outcome),
  )
  const [first, ...rest] = stops
  if (first === undefined) return null
  const lines = [...source(first), ...rest.flatMap((one) => [sayOf(one), ...source(one)])]
  const parts = { lines, safety: safetyOf(first.part.named, false) }
  if (first.reason.id === 'label.dormant-unknown')
    return askFor(
      given,
      sayOf(first),
      [
        { label: say('mixing.dormant-yes'), set: { dormant: true } },
        { label: say('mixing.dormant-no'), set: { dormant: false } },
      ],
      parts,
    )
  const outcome = first.reason.outcome
  const lift = stops.every(({ part, verdict }) => canBeLifted(part.named, verdict))
    ? [{ label: say('mixing.lift'), to: { step: 'lift' }, who: 'lead' as const }]
    : []
  return { reply: reply(outcome, sayOf(first), { ...parts, choices: lift }), state: given }
}

/** In a tank of several it is said whose label speaks. */
function sayOf({ part, reason }: Stop): Text {
  return say('mixing.tank.of', { product: part.named.product.name, what: sayReason(reason) })
}

function source({ reason }: Stop): Text[] {
  const found = saySource(reason)
  return found === null ? [] : [found]
}
