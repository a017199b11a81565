import type { Job, JobOutcome, Mix, MixOutcome, NoMix } from '#src/calculator/mix/outcome.ts'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import { planJob } from '#src/calculator/mix/plan-job.ts'
import type { FillRequest, JobRequest, Tool } from '#src/calculator/mix/request.ts'
import { mass, output, rate, volume } from '#tests/quantity/read.ts'

/** A scale that shows steps of so much. */
export function scaleOf(step: string, upTo?: string): Tool {
  return { kind: 'scale', name: `${step} scale`, step: mass(step), ...(upTo ? { upTo: mass(upTo) } : {}) }
}

/** A cylinder with marks of so much. */
export function cylinderOf(step: string, upTo?: string): Tool {
  return {
    kind: 'cylinder',
    name: `${step} cylinder`,
    step: volume(step),
    ...(upTo ? { upTo: volume(upTo) } : {}),
  }
}

/** 2 gallons at 0.113 oz wt/1000 ft2 and one gallon per 1000 ft2; figures of nobody's label. */
export function fillRequest(changes: Partial<FillRequest> = {}): FillRequest {
  return {
    rate: rate('0.113 oz wt/1000 ft2'),
    figures: { output: output('1 gal/1000 ft2') },
    fill: volume('2 gal'),
    ...changes,
  }
}

export function mixOf(outcome: MixOutcome): Mix {
  if (outcome.outcome === 'answer') return outcome.mix
  throw new Error(`Expected an answer, got ${outcome.outcome}: ${JSON.stringify(outcome.reason)}`)
}

export function noMixOf<O extends NoMix['outcome']>(
  outcome: MixOutcome | JobOutcome,
  kind: O,
): Extract<NoMix, { outcome: O }> {
  if (outcome.outcome === kind) return outcome as Extract<NoMix, { outcome: O }>
  throw new Error(`Expected ${kind}, got ${outcome.outcome}`)
}

export function fill(changes: Partial<FillRequest> = {}): Mix {
  return mixOf(planFill(fillRequest(changes)))
}

export function job(request: JobRequest): Job {
  const outcome = planJob(request)
  if (outcome.outcome === 'answer') return outcome.job
  throw new Error(`Expected an answer, got ${outcome.outcome}: ${JSON.stringify(outcome.reason)}`)
}
