import type { Job, Mix } from '#src/calculator/mix/outcome.ts'
import type { Choice } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import { amountIn, type Quantity, quantity } from '#src/quantity/quantity.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import type { KeptMix, MixBody, MixedProduct } from '#src/store/mixes.ts'
import type { Ready } from './ready.ts'

/** One product of a tank as it was worked out; of a job the whole, and its first, full load. */
export interface MixedPart {
  readonly ready: Ready
  readonly mix: Mix
  readonly job: Job | null
}

/** What a log draws from, out of the answer: all products of the tank, and all loads of a job. */
export function mixBodyOf(worked: readonly [MixedPart, ...MixedPart[]]): MixBody {
  const [first] = worked
  const { ready, mix, job } = first
  return {
    products: worked.map(productOf),
    adjuvants: adjuvantsOf(first),
    made: job?.totalMix ?? mix.fillTo,
    loads: job?.loads ?? 1,
    output: ready.output ?? null,
    sprayerId: ready.named.sprayer?.id ?? null,
    forId: ready.named.person.id,
    places:
      ready.named.site === null
        ? []
        : [{ siteId: ready.named.site.id, areaId: ready.named.area?.id ?? null }],
    weed: ready.given.weed ?? null,
    ...(ready.given.spots === undefined ? {} : { spots: ready.given.spots }),
  }
}

/** Kept at the press, not before: most answers are only read. */
export function keepMix(body: MixBody, { store, person, nowMs }: Tools): Promise<KeptMix> {
  return store.mixes.create(person.id, body, nowMs)
}

/** From a mix with a number one press leads to its log. */
export function logMix(number: number): Choice {
  return {
    label: say('mixing.log-it', { number }),
    to: { command: 'log', options: { mix: String(number) } },
    look: 'main',
    repeat: true,
  }
}

function productOf(worked: MixedPart): MixedProduct {
  const { ready } = worked
  const { product } = ready.named
  return {
    name: product?.name ?? null,
    entryId: product?.id ?? null,
    revisionId: product?.live.id ?? null,
    lineId: ready.verdict?.rateLines.length === 1 ? (ready.verdict.rateLines[0]?.id ?? null) : null,
    rate: ready.rate,
    amount: amountOf(worked),
  }
}

/** What was measured; with older mix in the tank, what the proven rate puts on the whole filling. */
function amountOf({ mix, job }: MixedPart): Quantity<AmountUnit> | null {
  if (job !== null) return job.totalConcentrate
  if (mix.alreadyIn === undefined || big(mix.alreadyIn.value).isZero())
    return mix.concentrate?.measured ?? null
  const { rateApplied: rate, areaCovered, fillTo } = mix
  if (rate.of !== 'product') return null
  if (rate.kind === 'area')
    return areaCovered === undefined
      ? null
      : quantity(big(rate.value).times(amountIn(areaCovered, rate.per.unit)).div(rate.per.value), rate.unit)
  if (rate.kind === 'volume')
    return quantity(big(rate.value).times(amountIn(fillTo, rate.per.unit)).div(rate.per.value), rate.unit)
  return rate.basis === 'v/v' ? quantity(big(fillTo.value).times(rate.value).div(100), fillTo.unit) : null
}

function adjuvantsOf({ mix, job }: MixedPart): MixBody['adjuvants'] {
  if (job === null) return mix.adjuvants.map(({ name, measured }) => ({ name, amount: measured }))
  const loads = job.groups.flatMap(({ count, mix: { adjuvants } }) =>
    adjuvants.map(({ name, measured }) => ({
      name,
      unit: measured.unit,
      value: big(measured.value).times(count),
    })),
  )
  const names = [...new Set(loads.map(({ name }) => name))]
  return names.map((name) => {
    const own = loads.filter((one) => one.name === name)
    const unit = own[0]?.unit ?? 'fl oz'
    const total = own.reduce(
      (sum, one) => sum.plus(amountIn({ value: decimalText(one.value), unit: one.unit }, unit)),
      big(0),
    )
    return { name, amount: quantity(total, unit) }
  })
}
