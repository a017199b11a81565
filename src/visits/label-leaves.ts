import { say, type Text } from '#src/conversation/text.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { LabelSays, ProductSays } from './label-says.ts'

/** What the label leaves to a second application: its days between, the amount of the year, and how many times more. */
export function leavesLines({ products }: LabelSays): Text[] {
  return products.flatMap((one) => [
    ...(products.length > 1 ? [say('visits.leaves-of', { product: one.product.used.name })] : []),
    ...leavesOf(one),
  ])
}

function leavesOf({ interval, applicationsLeft, verdict }: ProductSays): Text[] {
  return [
    ...(interval === null
      ? []
      : [say('visits.leaves-interval', { days: interval.days, day: { day: interval.on } })]),
    ...verdict.leftThisYear.map(({ left, limit, active }) =>
      active === undefined
        ? say('visits.leaves-amount', { left: sayRate(left), limit: sayRate(limit) })
        : say('visits.leaves-active', { left: sayRate(left), limit: sayRate(limit), active }),
    ),
    ...(applicationsLeft === null ? [] : [say('visits.leaves-times', { count: applicationsLeft })]),
  ]
}
