import type { Job, JobOutcome, Mix, MixOutcome, NoMix, Proposal } from '#src/calculator/mix/outcome.ts'
import type { Area } from '#src/calculator/mix/request.ts'
import type { Step } from '#src/calculator/worked.ts'
import { askFor } from '#src/conversation/ask-for.ts'
import { type Fact, reply } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { asTyped, type Param, say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import type { Reason, Verdict } from '#src/label/verdict.ts'
import { sayReason, saySource } from '#src/label/words.ts'
import { convert, type Quantity } from '#src/quantity/quantity.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import { handyUnit } from './handy-unit.ts'
import { canBeLifted } from './lift.ts'
import { pouredState } from './poured.ts'
import type { Ready } from './run.ts'
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
function isSaidAlready({ id, with: figures }: Reason, { reasons }: Verdict): boolean {
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
      choices: poured(ready),
      safety: safetyOf(ready.named, first),
    }),
    state: { ...ready.given, ...pouredState(ready, mix) },
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
      choices: poured(ready),
      safety: safetyOf(ready.named, first),
    }),
    state: { ...ready.given, ...pouredState(ready, full.mix) },
  }
}

/** No plain answer: what stands in the way, and how to get around it. */
function answerHold(ready: Ready, held: NoMix): Answer {
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

const concentrateUnit = ({ rate }: Ready) => (rate.kind === 'share' ? 'fl oz' : rate.unit)

function sayProposal(proposal: Proposal): Text {
  const { kind, ...figures } = proposal
  return say(`mix.propose.${kind}`, 'fillTo' in figures ? { ...figures, fill: figures.fillTo } : figures)
}

function outcomeOf(notes: readonly Text[]): 'answer' | 'heads-up' {
  return notes.length > 0 ? 'heads-up' : 'answer'
}

/** Told without raising the outcome: what holds on most days would make nobody look up any more. */
const QUIET = new Set(['mix.note.printed-pair', 'mix.note.output-trap', 'mix.note.fillings'])

/** What the title says already. */
const IN_TITLE = new Set(['mix.note.ready', 'mix.note.add-none'])

/** What to mind, of the amount, the label and the sprayer, or because no label was looked at; and what is only told. */
function notesOf(ready: Ready, steps: readonly Step[]): { readonly mind: Text[]; readonly told: Text[] } {
  const notes = steps.filter(({ id }) => !IN_TITLE.has(id))
  const label = (ready.verdict?.reasons ?? []).filter(({ outcome }) => outcome === 'heads-up').map(sayReason)
  return {
    mind: [
      ...notes.filter(({ id }) => !QUIET.has(id)).map(sayStep),
      ...label,
      ...(ready.named.product === null ? [say('mixing.no-label-checked')] : []),
      ...(ready.named.product !== null && ready.named.site === null ? [say('mixing.no-site')] : []),
      ...ready.notes,
    ],
    told: [...notes.filter(({ id }) => QUIET.has(id)).map(sayStep), ...ready.told],
  }
}

function fillLines(ready: Ready, mix: Mix): Text[] {
  return [
    ...toolLines([mix]),
    ...mix.adjuvants.map(({ name, measured }) => say('mixing.adjuvant', { amount: measured, name })),
    ...orderLines(ready, mix),
    ...coverLines(ready, mix, mix.areaCovered),
  ]
}

function jobLines(ready: Ready, job: Job): Text[] {
  const [full] = job.groups
  return [
    ...job.groups.map(({ count, mix }) =>
      say(count === 1 ? 'mixing.load' : 'mixing.loads', {
        count,
        amount: loadAmount(mix, job.totalConcentrate.unit),
        fill: mix.fillTo,
      }),
    ),
    ...toolLines(job.groups.map(({ mix }) => mix)),
    ...(job.loads === 1 ? orderLines(ready, full.mix) : jobOrderLines(ready, full.mix)),
    ...coverLines(ready, full.mix, ready.volumes.ground),
  ]
}

/** `12.8 g and 37.5 mL of surfactant`: all that one load takes beside water. */
function loadAmount({ concentrate, adjuvants }: Mix, unit: string): Param {
  const product = concentrate?.measured ?? { value: '0', unit }
  if (adjuvants.length === 0) return product
  return {
    all: [product, ...adjuvants.map(({ measured, name }) => say('mixing.part', { amount: measured, name }))],
    join: 'and',
  }
}

function toolLines(mixes: readonly Mix[]): Text[] {
  const tools = new Map(
    mixes.flatMap(({ concentrate }) =>
      concentrate?.tool === undefined ? [] : [[concentrate.tool.name, concentrate.tool] as const],
    ),
  )
  return [...tools.values()].map(({ name, step }) => say('mixing.tool', { tool: name, step }))
}

/** Part of the water first, then product, then up to the mark. */
function orderLines(ready: Ready, mix: Mix): Text[] {
  const own = mix.concentrate === undefined ? null : labelOrder(ready)
  if (own !== null) return [own, say('mix.fill-to', { volume: mix.fillTo })]
  if (mix.concentrate === undefined) return []
  const kind = isDry(ready, mix) ? 'dry' : 'liquid'
  return mix.alreadyIn === undefined
    ? [say(`mixing.order-${kind}`, { fill: mix.fillTo })]
    : [say(`mixing.order-${kind}-on-top`, { fill: mix.fillTo, in_tank: mix.alreadyIn })]
}

function jobOrderLines(ready: Ready, mix: Mix): Text[] {
  const own = labelOrder(ready)
  return [own ?? say(`mixing.order-${isDry(ready, mix) ? 'dry' : 'liquid'}-each`)]
}

function labelOrder({ named }: Ready): Text | null {
  const own = named.product?.live.body.mixingOrder
  return own === undefined ? null : say('mixing.order-label', { order: { all: own, join: 'lines' } })
}

function isDry({ named }: Ready, { concentrate }: Mix): boolean {
  const form = named.product?.live.body.form
  return form === undefined ? concentrate?.measured.unit === 'g' : form === 'dry'
}

function coverLines(ready: Ready, mix: Mix, area: Area | undefined): Text[] {
  const line = ready.verdict?.rateLines[0]
  return [
    ...(area === undefined || ready.output === undefined
      ? []
      : [say('mixing.covers', { area, output: sayOutput(ready.output) })]),
    say('mixing.gives', { rate: sayRate(mix.rateApplied) }),
    ...(mix.rateOnGround === undefined ? [] : [say('mixing.on-ground', { rate: sayRate(mix.rateOnGround) })]),
    ...(line === undefined ? [] : [say('label.source-line', { line: line.line })]),
  ]
}

function titleOf(ready: Ready, mix: Mix): Text {
  const { concentrate } = mix
  if (concentrate === undefined)
    return mix.notes.find(({ id }) => id === 'mix.note.ready') === undefined
      ? say('mixing.title-none', { fill: mix.fillTo })
      : say('mix.note.ready', { volume: mix.fillTo })
  const { measured, inRateUnit, scoops } = concentrate
  const also = handyUnit(inRateUnit)
  const same = measured.unit === also.unit
  return say(same ? 'mixing.title' : 'mixing.title-both', {
    amount: scoops === undefined ? measured : also,
    also,
    product: productName(ready),
  })
}

/** All of the product in the unit of the tool that it is measured with, then in the label's. */
function jobTitle(ready: Ready, job: Job): Text {
  const unit = job.groups[0].mix.concentrate?.measured.unit ?? job.totalConcentrate.unit
  const also = handyUnit(job.totalConcentrate)
  return say(unit === also.unit ? 'mixing.job-title' : 'mixing.job-title-both', {
    amount: convert(job.totalConcentrate, unit),
    also,
    loads: job.loads,
    product: productName(ready),
  })
}

function productName({ named }: Ready): Text {
  return named.product === null ? say('mixing.the-product') : asTyped(named.product.name)
}

type Concentrate = NonNullable<Mix['concentrate']>

/** In the unit of the scale that was typed; else in the unit in which the rate was asked. */
function inAsked({ given }: Pick<Ready, 'given'>, concentrate: Concentrate): Quantity {
  return given.scale === undefined ? concentrate.inRateUnit : concentrate.measured
}

const figure = ({ value, unit }: { value: string; unit: string }) => ({ value: factValue(value), unit })

function fillFacts(ready: Ready, mix: Mix): Fact[] {
  const { concentrate, adjuvants } = mix
  const none = { value: 0, unit: concentrateUnit(ready) }
  return [
    { name: 'concentrate', ...(concentrate === undefined ? none : figure(inAsked(ready, concentrate))) },
    { name: 'concentrate_exact', ...(concentrate === undefined ? none : figure(concentrate.exact)) },
    ...(concentrate === undefined ? [] : [{ name: 'concentrate_tool', ...figure(concentrate.measured) }]),
    { name: 'tank', ...figure(mix.fillTo) },
    ...(mix.areaCovered === undefined ? [] : [{ name: 'area_covered', ...figure(mix.areaCovered) }]),
    { name: 'rate_applied', ...figure(sayRate(mix.rateApplied)) },
    ...(mix.rateOnGround === undefined
      ? []
      : [{ name: 'rate_on_ground', ...figure(sayRate(mix.rateOnGround)) }]),
    ...adjuvants.slice(0, 1).map(({ measured }) => ({ name: 'adjuvant', ...figure(measured) })),
    ...(mix.leftover === undefined ? [] : [{ name: 'leftover', ...figure(mix.leftover) }]),
  ]
}

/** Which entry and which version of it the answer rests on. */
function productFacts({ named, verdict }: Ready): Fact[] {
  if (named.product === null) return []
  const { live, name } = named.product
  return [
    { name: 'product', value: name },
    {
      name: 'label_version',
      value: `${live.body.label.version} (${live.body.label.date}), entry ${live.revision}`,
    },
    ...(verdict?.rateLines[0] === undefined ? [] : [{ name: 'rate_line', value: verdict.rateLines[0].id }]),
    ...(verdict?.leftThisYear ?? [])
      .slice(0, 1)
      .map(({ left }) => ({ name: 'left_this_year', ...figure(sayRate(left)) })),
  ]
}

function poured({ named }: Ready) {
  if (named.sprayer === null) return []
  return [
    {
      label: say('mixing.poured', { sprayer: named.sprayer.name }),
      to: { step: 'poured' },
      look: 'main' as const,
    },
  ]
}

/** The full list of what to wear comes with the day's first mix of each product. */
async function isFirstToday({ named }: Ready, { store, person, today }: Tools): Promise<boolean> {
  const { product } = named
  if (product === null) return false
  const before = await store.turns.list({ personId: person.id, day: today, command: 'mix', limit: 20 })
  return !before.some(({ reply: { facts } }) =>
    facts.some(({ name, value }) => name === 'product' && value === product.name),
  )
}
