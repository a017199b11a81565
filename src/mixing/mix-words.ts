import type { Job, Mix } from '#src/calculator/mix/outcome.ts'
import type { Area } from '#src/calculator/mix/request.ts'
import type { Step } from '#src/calculator/worked.ts'
import { sayStep } from '#src/conversation/steps.ts'
import { asTyped, type Param, say, type Text } from '#src/conversation/text.ts'
import { sayReason } from '#src/label/words.ts'
import { convert } from '#src/quantity/quantity.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import { handyUnit } from './handy-unit.ts'
import type { Ready } from './ready.ts'

export function outcomeOf(notes: readonly Text[]): 'answer' | 'heads-up' {
  return notes.length > 0 ? 'heads-up' : 'answer'
}

/** Told without raising the outcome: what holds on most days would make nobody look up any more. */
const QUIET = new Set(['mix.note.printed-pair', 'mix.note.output-trap', 'mix.note.fillings'])

/** What the title says already. */
const IN_TITLE = new Set(['mix.note.ready', 'mix.note.add-none'])

/** What to mind, of the amount, the label and the sprayer, or because no label was looked at; and what is only told. */
export function notesOf(
  ready: Ready,
  steps: readonly Step[],
): { readonly mind: Text[]; readonly told: Text[] } {
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

export function fillLines(ready: Ready, mix: Mix): Text[] {
  return [
    ...toolLines([mix]),
    ...mix.adjuvants.map(({ name, measured }) => say('mixing.adjuvant', { amount: measured, name })),
    ...orderLines(ready, mix),
    ...coverLines(ready, mix, mix.areaCovered),
  ]
}

export function jobLines(ready: Ready, job: Job): Text[] {
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

/** Which tools measure these amounts. */
export function toolLines(mixes: readonly Mix[]): Text[] {
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

export function titleOf(ready: Ready, mix: Mix): Text {
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
export function jobTitle(ready: Ready, job: Job): Text {
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
