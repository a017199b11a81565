import type { Job, Mix } from '#src/calculator/mix/outcome.ts'
import { type Param, say, type Text } from '#src/conversation/text.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import { notesOf } from '../mix-words.ts'
import type { Ready } from '../ready.ts'
import { jobOf, mixOf, type Planned } from './planned.ts'

function partOf(name: string, { concentrate }: Mix): Param {
  return concentrate === undefined
    ? say('mixing.tank.none-of', { name })
    : say('mixing.part', { amount: concentrate.measured, name })
}

/** Every product with its amount; of a job, what one full load takes. */
export function titleOf(planned: readonly Planned[], job: Job | null): Text {
  const parts = planned.map(({ part, outcome }) => partOf(part.named.product.name, mixOf(outcome)))
  const all = { all: parts, join: 'and' } as const
  return job === null || job.loads === 1
    ? say('mixing.tank.title', { parts: all })
    : say('mixing.tank.job-title', { parts: all, loads: job.loads })
}

/** Loads that are not all alike are told one kind a line. */
export function jobLines(planned: readonly Planned[], job: Job): Text[] {
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
export function amountsOf(planned: readonly Planned[]): ReadonlyMap<string, Param> {
  const products = planned.flatMap(({ part, outcome }) => {
    const { concentrate } = mixOf(outcome)
    return concentrate === undefined ? [] : [[part.named.product.name, concentrate.measured] as const]
  })
  const adjuvants = planned.flatMap(({ outcome }) =>
    mixOf(outcome).adjuvants.map(({ name, measured }) => [name, measured] as const),
  )
  return new Map<string, Param>([...products, ...adjuvants])
}

/** Ground that this filling, or the job, covers. */
export function coverLines({ output, volumes }: Ready, mix: Mix): Text[] {
  const area = volumes.ground ?? mix.areaCovered
  return area === undefined || output === undefined
    ? []
    : [say('mixing.covers', { area, output: sayOutput(output) })]
}

/** What each product comes to on the ground, beside its label’s own line and order. */
export function givesLines({ part, ready, outcome }: Planned): Text[] {
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

/** What to mind of each product; what is the same for all of them is said once. That no site was given is left out. */
export function mindOfAll(planned: readonly Planned[]): Text[] {
  const all = planned.map(({ part, ready, outcome }) => ({
    product: part.named.product.name,
    mind: notesOf(ready, mixOf(outcome).notes).mind.filter(({ say: id }) => id !== 'mixing.no-site'),
  }))
  const keys = all.map(({ mind }) => new Set(mind.map((what) => JSON.stringify(what))))
  const isShared = (what: Text) => keys.every((own) => own.has(JSON.stringify(what)))
  return [
    ...(all[0]?.mind.filter(isShared) ?? []),
    ...all.flatMap(({ product, mind }) =>
      mind.filter((what) => !isShared(what)).map((what) => say('mixing.tank.of', { product, what })),
    ),
  ]
}
