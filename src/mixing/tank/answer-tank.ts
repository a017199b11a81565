import type { TankOrder } from '#src/calculator/order/order-tank.ts'
import type { Worked } from '#src/calculator/worked.ts'
import { type Reply, reply } from '#src/conversation/reply.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { isFirstToday } from '../answer.ts'
import type { MixedPart } from '../kept-mix.ts'
import { notesOf, toolLines } from '../mix-words.ts'
import type { MixOptions } from '../options.ts'
import { type Left, leftOf, pouredState, pressesOf } from '../poured.ts'
import { safetyOf } from '../safety.ts'
import { activesOf } from './actives.ts'
import type { Dosed } from './judge.ts'
import { orderLines } from './order.ts'
import { jobOf, mixOf, type Planned } from './planned.ts'
import { factsOf, jobFacts } from './tank-facts.ts'
import { amountsOf, coverLines, givesLines, jobLines, mindOfAll, titleOf } from './tank-words.ts'

export interface TankPlan {
  readonly planned: readonly Planned[]
  readonly dosed: readonly Dosed[]
  readonly order: Worked<TankOrder>
  readonly unplaced: readonly string[]
}

/** The amounts first, then the order in which they go in, then what each label and each source has to say. */
export async function answerTank(given: MixOptions, tank: TankPlan, tools: Tools): Promise<Answer> {
  const { planned, dosed, order, unplaced } = tank
  const [first] = planned
  if (first === undefined) throw new RangeError('A tank has no product')
  const mixes = planned.map(({ outcome }) => mixOf(outcome))
  const [mix] = mixes
  if (mix === undefined || mixes.some(({ fillTo }) => fillTo.value !== mix.fillTo.value))
    throw new RangeError('The products of a tank are filled to different marks')
  const job = jobOf(first.outcome)
  const isFirst = await Promise.all(planned.map(({ ready }) => isFirstToday(ready, tools)))
  const { findings } = activesOf(dosed, first.ready.output)
  const mind = [
    ...findings.map(sayStep),
    ...order.findings.map(sayStep),
    ...mindOfAll(planned),
    ...unplaced.map((name) => say('mixing.tank.adjuvant-own-label', { name })),
  ]
  return {
    reply: reply('heads-up', titleOf(planned, job), {
      lines: [
        ...(job === null ? [] : jobLines(planned, job)),
        ...mix.adjuvants
          .filter(({ name }) => unplaced.includes(name))
          .map(({ name, measured }) => say('mixing.adjuvant', { amount: measured, name })),
        ...orderLines(order.value, amountsOf(planned), say('mixing.tank.last', { fill: mix.fillTo })),
        ...toolLines(mixes),
        ...coverLines(first.ready, mix),
        say('mixing.tank.jar'),
        ...mind,
        ...(first.ready.named.site === null ? [say('mixing.no-site')] : []),
      ],
      facts: [
        ...planned.flatMap((one, at) => factsOf(one, at)),
        { name: 'order', value: order.value.items.map(({ item }) => item.name).join('; ') },
        ...(job === null ? [] : jobFacts(job)),
      ],
      working: [...planned.flatMap(workingOf), ...order.working.map(sayStep)],
      choices: pressesOf(first.ready),
      safety: safetyOfAll(planned, isFirst),
    }),
    state: { ...given, ...pouredAll(planned) },
  }
}

/** Kept off the screen until it is asked for: how each amount came about, and what its label prints. */
function workingOf(one: Planned): Text[] {
  const { part, ready, outcome } = one
  const steps = [...(jobOf(outcome)?.working ?? []), ...mixOf(outcome).working]
  return [
    say('mixing.tank.working', { product: part.named.product.name }),
    ...steps.map(sayStep),
    ...givesLines(one),
    ...notesOf(ready, mixOf(outcome).notes).told,
  ]
}

function safetyOfAll(planned: readonly Planned[], isFirst: readonly boolean[]): Reply['safety'] {
  const all = planned.map(({ ready }, at) => safetyOf(ready.named, isFirst[at] ?? true))
  const label = all.flatMap((one) => one.label ?? [])
  return { about: all[0]?.about ?? ['mixing'], label }
}

/** Every product of the tank is noted as its contents, and in the mix that a log draws from. */
function pouredAll(planned: readonly Planned[]): Left {
  const [first, ...rest] = planned.map(
    ({ ready, outcome }): MixedPart => ({ ready, mix: mixOf(outcome), job: jobOf(outcome) }),
  )
  if (first === undefined) return {}
  const left = leftOf([first, ...rest])
  const poured = left['@poured']
  if (poured === undefined) return left
  const states = [first, ...rest].map(({ ready, mix }) => pouredState(ready, mix)['@poured'])
  const products = states.flatMap((one) => one?.details.products ?? [])
  const rates = states.flatMap((one) => (one?.details.rate == null ? [] : [one.details.rate]))
  return {
    ...left,
    '@poured': { ...poured, details: { ...poured.details, products, rate: rates.join('; ') } },
  }
}
