import type { Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import { figuresFor, inUnitOf } from '#src/label/amounts.ts'
import { activesLeft } from '#src/label/past.ts'
import type { PastTreatment, Situation } from '#src/label/situation.ts'
import type { Verdict } from '#src/label/verdict.ts'
import { type AreaRate, areaRate, type Output, type Rate } from '#src/quantity/rate.ts'
import { allowSettingsOf, withRate } from '../situation.ts'
import type { JudgedPart, Part, TankNamed } from './part.ts'

/** A part with the rate at which it goes on. */
export interface Dosed {
  readonly part: Part
  readonly rate: Rate
}

/** Names of all other products: each label has its word on its partners. */
export function partnersOf(parts: readonly Part[], own: Part): string[] {
  return parts.filter((one) => one !== own).map(({ named }) => named.product.name)
}

/** The rate as product per area of the ground; null where a figure for that is lacking. */
export function productOnGround(
  { product }: TankNamed,
  rate: Rate,
  output: Output | undefined,
): AreaRate | null {
  const entry = product.live.body
  const unit = entry.form === 'dry' ? 'oz wt' : 'fl oz'
  const like = areaRate(0, unit, { value: '1', unit: '1000 ft2' })
  return inUnitOf(rate, like, figuresFor(entry, output))
}

/** What a label says once it is known how much goes on, of this product and of the others in the tank. */
export function judgeDosed(
  part: JudgedPart,
  dosed: readonly Dosed[],
  mix: {
    readonly output: Output | undefined
    readonly more: Parameters<typeof withRate>[3] & object
  },
  tools: Tools,
): Verdict {
  const { body } = part.named.product.live
  const own = dosed.find((one) => one.part.index === part.index)
  if (own === undefined) throw new RangeError('A product of the tank has no rate')
  const situation = withRate(part.situation, own.rate, mix.output, mix.more)
  const settings = allowSettingsOf(tools.crew)
  const verdict = mayI(body, situation, settings)
  const beside = dosed.flatMap((one) => besideOf(one, part, mix.output, tools))
  if (beside.length === 0) return verdict
  // Only yearly totals add up over a tank: an interval runs from one day to another.
  const together = mayI(body, besides(situation, beside), settings).reasons.filter(
    ({ id }) => id === YEAR && !verdict.reasons.some((one) => one.id === YEAR),
  )
  const [worst] = together
  return worst === undefined
    ? verdict
    : { ...verdict, outcome: worst.outcome, reasons: [...together, ...verdict.reasons] }
}

const YEAR = 'label.above-year'

const besides = (situation: Situation, beside: readonly PastTreatment[]): Situation => ({
  ...situation,
  treatments: [...situation.treatments, ...beside],
})

/** A partner with an active of this product, as a treatment of the same ground on the same day. */
function besideOf(
  { part, rate }: Dosed,
  own: Part,
  output: Output | undefined,
  { today }: Tools,
): PastTreatment[] {
  if (part.index === own.index) return []
  const mine = new Set(own.named.product.live.body.actives.map(({ name }) => name.toLowerCase()))
  const product = productOnGround(part.named, rate, output)
  const { body } = part.named.product.live
  if (product === null || !body.actives.some(({ name }) => mine.has(name.toLowerCase()))) return []
  return [
    {
      on: today,
      entry: body.name,
      product,
      actives: activesLeft(body, product),
      areaFt2: part.named.area?.squareFeet ?? '1000',
      sameGround: true,
    },
  ]
}
