import type { Job } from '#src/calculator/mix/outcome.ts'
import type { Fact } from '#src/conversation/reply.ts'
import { figure, fillFacts, inAsked, productFacts } from '../mix-facts.ts'
import { jobOf, mixOf, type Planned } from './planned.ts'

/** Figures of one product; from the second on their names end in its number. */
export function factsOf({ ready, outcome }: Planned, at: number): Fact[] {
  const shared = new Set(['tank', 'area_covered', 'adjuvant', 'leftover'])
  const job = jobOf(outcome)
  const last = job?.lastMix.concentrate
  const own: Fact[] = [
    ...fillFacts(ready, mixOf(outcome)),
    ...productFacts(ready),
    ...(job === null
      ? []
      : [
          { name: 'total_concentrate', ...figure(job.totalConcentrate) },
          { name: 'total_concentrate_exact', ...figure(job.totalExact) },
        ]),
    ...(last === undefined ? [] : [{ name: 'last_concentrate', ...figure(inAsked(ready, last)) }]),
  ]
  if (at === 0) return own
  return own
    .filter(({ name }) => !shared.has(name))
    .map((fact) => ({ ...fact, name: `${fact.name}_${at + 1}` }))
}

/** Figures that all products of a job share. */
export function jobFacts(job: Job): Fact[] {
  return [
    { name: 'total_mix', ...figure(job.totalMix) },
    { name: 'loads', value: job.loads },
    { name: 'last_load', ...figure(job.lastLoad) },
  ]
}
