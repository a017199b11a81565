import type { NoMix, Proposal } from '#src/calculator/mix/outcome.ts'
import { type Fact, reply } from '#src/conversation/reply.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import { concentrateUnit, figure } from './mix-facts.ts'
import type { Ready } from './ready.ts'

/** No plain answer: what stands in the way, and how to get around it. */
export function answerHold(ready: Ready, held: NoMix): Answer {
  const outcome =
    held.outcome === 'problem'
      ? held.problem.kind === 'needs'
        ? 'question'
        : 'refusal'
      : held.outcome === 'above-maximum'
        ? 'refusal'
        : 'hold'
  const proposals = 'proposals' in held ? held.proposals : []
  const facts: Fact[] =
    held.outcome === 'not-fit'
      ? [
          ...(held.addNone ? [{ name: 'concentrate', value: 0, unit: concentrateUnit(ready) }] : []),
          { name: 'tank', ...figure(held.fillTo) },
        ]
      : 'exact' in held
        ? [{ name: 'concentrate_exact', ...figure(held.exact) }]
        : []
  return {
    reply: reply(outcome, sayStep(held.reason), {
      lines: proposals.map(sayProposal),
      facts,
      safety: { about: ['measuring', 'leftover'] },
    }),
    state: ready.given,
  }
}

function sayProposal(proposal: Proposal): Text {
  const { kind, ...figures } = proposal
  return say(`mix.propose.${kind}`, 'fillTo' in figures ? { ...figures, fill: figures.fillTo } : figures)
}
