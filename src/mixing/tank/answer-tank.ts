import type { Job, JobOutcome, Mix, MixOutcome } from '#src/calculator/mix/outcome.ts'
import type { TankOrder } from '#src/calculator/order/order-tank.ts'
import type { Step, Worked } from '#src/calculator/worked.ts'
import { type Fact, type Reply, reply } from '#src/conversation/reply.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { type Param, say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import { isFirstToday } from '../answer.ts'
import { figure, fillFacts, inAsked, productFacts } from '../mix-facts.ts'
import { notesOf, toolLines } from '../mix-words.ts'
import type { MixOptions } from '../options.ts'
import { pouredState } from '../poured.ts'
import type { Ready } from '../ready.ts'
import { safetyOf } from '../safety.ts'
import { activesOf } from './actives.ts'
import type { Dosed } from './judge.ts'
import { orderLines } from './order.ts'
import type { JudgedPart } from './part.ts'

/** A product of the tank with its amount. */
export interface Planned {
  readonly part: JudgedPart
  readonly ready: Ready
  readonly outcome: Extract<MixOutcome | JobOutcome, { outcome: 'answer' }>
}

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
    ...planned.flatMap(mindOf),
    ...unplaced.map((name) => say('mixing.tank.adjuvant-own-label', { name })),
  ]
  return {
    reply: reply('heads-up', titleOf(planned, job), {
      lines: [
        ...(job === null ? [] : jobLines(planned, job)),
        ...mix.adjuvants.map(({ name, measured }) => say('mixing.adjuvant', { amount: measured, name })),
        ...orderLines(order.value, amountsOf(planned), say('mixing.tank.last', { fill: mix.fillTo })),
        sayStep(order.working[0] ?? NO_STEP),
        ...toolLines(mixes),
        ...coverLines(first.ready, mix),
        ...planned.flatMap(givesLines),
        say('mixing.tank.jar'),
        ...mind,
        ...(first.ready.named.site === null ? [say('mixing.no-site')] : []),
        ...planned.flatMap(({ ready, outcome }) => notesOf(ready, mixOf(outcome).notes).told),
      ],
      facts: [
        ...planned.flatMap((one, at) => factsOf(one, at)),
        { name: 'order', value: order.value.items.map(({ item }) => item.name).join('; ') },
        ...(job === null ? [] : jobFacts(job)),
      ],
      working: [...workingOf(planned), ...order.working.map(sayStep)],
      choices: pouredChoice(first.ready),
      safety: safetyOfAll(planned, isFirst),
    }),
    state: { ...given, ...pouredAll(planned) },
  }
}

const NO_STEP: Step = { id: 'mixing.cannot', with: {} }

const jobOf = (outcome: Planned['outcome']): Job | null => ('job' in outcome ? outcome.job : null)
const mixOf = (outcome: Planned['outcome']): Mix =>
  'job' in outcome ? outcome.job.groups[0].mix : outcome.mix

function partOf(name: string, { concentrate }: Mix): Param {
  return concentrate === undefined
    ? say('mixing.tank.none-of', { name })
    : say('mixing.part', { amount: concentrate.measured, name })
}

function titleOf(planned: readonly Planned[], job: Job | null): Text {
  const parts = planned.map(({ part, outcome }) => partOf(part.named.product.name, mixOf(outcome)))
  const all = { all: parts, join: 'and' } as const
  return job === null || job.loads === 1
    ? say('mixing.tank.title', { parts: all })
    : say('mixing.tank.job-title', { parts: all, loads: job.loads })
}

/** Loads that are not all alike are told one kind a line. */
function jobLines(planned: readonly Planned[], job: Job): Text[] {
  return job.groups.map(({ count, mix }, group) => {
    const parts = planned.map(({ part, outcome }) =>
      partOf(part.named.product.name, jobOf(outcome)?.groups[group]?.mix ?? mix),
    )
    return say(count === 1 ? 'mixing.load' : 'mixing.loads', {
      count,
      amount: { all: parts, join: 'and' },
      fill: mix.fillTo,
    })
  })
}

/** What goes in at each step, by name. */
function amountsOf(planned: readonly Planned[]): ReadonlyMap<string, Param> {
  const products = planned.flatMap(({ part, outcome }) => {
    const { concentrate } = mixOf(outcome)
    return concentrate === undefined ? [] : [[part.named.product.name, concentrate.measured] as const]
  })
  const adjuvants = planned.flatMap(({ outcome }) =>
    mixOf(outcome).adjuvants.map(({ name, measured }) => [name, measured] as const),
  )
  return new Map<string, Param>([...products, ...adjuvants])
}

function coverLines({ output, volumes }: Ready, mix: Mix): Text[] {
  const area = volumes.ground ?? mix.areaCovered
  return area === undefined || output === undefined
    ? []
    : [say('mixing.covers', { area, output: sayOutput(output) })]
}

function givesLines({ part, ready, outcome }: Planned): Text[] {
  const line = ready.verdict?.rateLines[0]
  const { name } = part.named.product
  return [
    say('mixing.tank.gives', { product: name, rate: sayRate(mixOf(outcome).rateApplied) }),
    ...(line === undefined ? [] : [say('label.source-line', { line: line.line })]),
    ...(part.named.product.live.body.mixingOrder === undefined
      ? []
      : [
          say('mixing.tank.label-order', {
            product: name,
            order: { all: part.named.product.live.body.mixingOrder, join: 'lines' },
          }),
        ]),
  ]
}

/** That no site was given is said once for the tank and not for each product. */
function mindOf({ part, ready, outcome }: Planned): Text[] {
  const { mind } = notesOf(ready, mixOf(outcome).notes)
  return mind
    .filter(({ say: id }) => id !== 'mixing.no-site')
    .map((what) => say('mixing.tank.of', { product: part.named.product.name, what }))
}

function factsOf({ ready, outcome }: Planned, at: number): Fact[] {
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

function jobFacts(job: Job): Fact[] {
  return [
    { name: 'total_mix', ...figure(job.totalMix) },
    { name: 'loads', value: job.loads },
    { name: 'last_load', ...figure(job.lastLoad) },
  ]
}

function workingOf(planned: readonly Planned[]): Text[] {
  return planned.flatMap(({ part, outcome }) => {
    const steps = [...(jobOf(outcome)?.working ?? []), ...mixOf(outcome).working]
    return [say('mixing.tank.working', { product: part.named.product.name }), ...steps.map(sayStep)]
  })
}

function safetyOfAll(planned: readonly Planned[], isFirst: readonly boolean[]): Reply['safety'] {
  const all = planned.map(({ ready }, at) => safetyOf(ready.named, isFirst[at] ?? true))
  const label = all.flatMap((one) => one.label ?? [])
  return { about: all[0]?.about ?? ['mixing'], label }
}

function pouredChoice({ named }: Ready) {
  if (named.sprayer === null) return []
  const label = say('mixing.poured', { sprayer: named.sprayer.name })
  return [{ label, to: { step: 'poured' }, look: 'main' as const }]
}

/** Every product of the tank is noted as its contents. */
function pouredAll(planned: readonly Planned[]): ReturnType<typeof pouredState> {
  const states = planned.map(({ ready, outcome }) => pouredState(ready, mixOf(outcome))['@poured'])
  const [first] = states
  if (first === undefined) return {}
  const products = states.flatMap((one) => one?.details.products ?? [])
  const rates = states.flatMap((one) => (one?.details.rate == null ? [] : [one.details.rate]))
  return { '@poured': { ...first, details: { ...first.details, products, rate: rates.join('; ') } } }
}
