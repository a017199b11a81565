import type { JobOutcome, MixOutcome } from '#src/calculator/mix/outcome.ts'
import { type Reply, reply } from '#src/conversation/reply.ts'
import { sayStep } from '#src/conversation/steps.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { answerHold } from './answer-hold.ts'
import { figure, fillFacts, inAsked, productFacts } from './mix-facts.ts'
import { fillLines, jobLines, jobTitle, notesOf, outcomeOf, titleOf } from './mix-words.ts'
import { leftOf, pressesOf } from './poured.ts'
import type { Ready } from './ready.ts'
import { safetyOf } from './safety.ts'

export async function answerFill(ready: Ready, planned: MixOutcome, tools: Tools): Promise<Answer> {
  if (planned.outcome !== 'answer') return answerHold(ready, planned)
  const { mix } = planned
  const { mind, told } = notesOf(ready, mix.notes)
  const first = await isFirstToday(ready, tools)
  return {
    reply: reply(outcomeOf(mind), titleOf(ready, mix), {
      lines: [...fillLines(ready, mix), ...mind, ...told],
      facts: [...fillFacts(ready, mix), ...productFacts(ready)],
      working: mix.working.map(sayStep),
      choices: pressesOf(ready),
      safety: safetyOf(ready.named, first),
    }),
    state: { ...ready.given, ...leftOf([{ ready, mix, job: null }]) },
  }
}

export async function answerJob(ready: Ready, planned: JobOutcome, tools: Tools): Promise<Answer> {
  if (planned.outcome !== 'answer') return answerHold(ready, planned)
  const { job } = planned
  const [full] = job.groups
  const { mind, told } = notesOf(ready, [...job.notes, ...full.mix.notes])
  const first = await isFirstToday(ready, tools)
  const last = job.lastMix.concentrate
  return {
    reply: reply(outcomeOf(mind), jobTitle(ready, job), {
      lines: [...jobLines(ready, job), ...mind, ...told],
      facts: [
        ...fillFacts(ready, full.mix).filter(({ name }) => name !== 'area_covered'),
        { name: 'total_concentrate', ...figure(job.totalConcentrate) },
        { name: 'total_concentrate_exact', ...figure(job.totalExact) },
        { name: 'total_mix', ...figure(job.totalMix) },
        { name: 'loads', value: job.loads },
        { name: 'last_load', ...figure(job.lastLoad) },
        ...(last === undefined ? [] : [{ name: 'last_concentrate', ...figure(inAsked(ready, last)) }]),
        ...(ready.volumes.ground === undefined
          ? []
          : [{ name: 'area_covered', ...figure(ready.volumes.ground) }]),
        ...productFacts(ready),
      ],
      working: [...job.working, ...full.mix.working].map(sayStep),
      choices: pressesOf(ready),
      safety: safetyOf(ready.named, first),
    }),
    state: { ...ready.given, ...leftOf([{ ready, mix: full.mix, job }]) },
  }
}

/** The full list of what to wear comes with the day's first mix of each product. */
export async function isFirstToday({ named }: Ready, { store, person, today }: Tools): Promise<boolean> {
  const { product } = named
  if (product === null) return false
  const mine = { personId: person.id, day: today, command: 'mix' } as const
  // Who mixes it again has nearly always just done so; whole days are read for the others alone.
  for (const limit of [NEWEST, 20]) {
    const before = await store.turns.list({ ...mine, limit })
    if (before.some(({ reply }) => namesProduct(reply, product.name))) return false
    if (before.length < NEWEST) return true
  }
  return true
}
const NEWEST = 2

const namesProduct = ({ facts }: Reply, product: string): boolean =>
  facts.some(({ name, value }) => /^product(_\d+)?$/.test(name) && value === product)
