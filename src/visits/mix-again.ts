import type { Choice, Start } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { decimalText } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import { recorded } from '#src/record/not-recorded.ts'
import type { ProductUsed } from '#src/record/product.ts'
import type { Application } from './application.ts'

/** One press to the mix of the same again; none where the record names no product. */
export function mixAgain(application: Application): Choice[] {
  const options = mixOptions(application)
  return options === null
    ? []
    : [{ label: say('visits.mix-again'), to: { command: 'mix', options }, look: 'main' }]
}

/**
 * Everything of the application that the mix asks for: product, ground, rate, weed, sprayer, and that it is a repeat
 * on the same ground. @param rate another rate for the first product
 */
export function mixOptions(
  { record, products, site, area, weeds }: Application,
  rate?: Rate,
): Start['options'] | null {
  const [first, ...others] = products.map(({ used }) => used)
  if (first === undefined) return null
  const ground = recorded(record.treatedArea)
  const sprayer = recorded(record.sprayer)
  const [weed] = weeds
  const rateText = textOfRate(rate ?? recorded(first.rate))
  return {
    product: first.name,
    ...(others.length === 0 ? {} : { also: others.map(alsoText).join('; ') }),
    ...(rateText === null ? {} : { rate: rateText }),
    // Without a sprayer the mix asks for the tank instead: ground alone cannot be split into loads.
    ...(ground === undefined || sprayer === undefined
      ? {}
      : { ground: `${decimalText(amountIn(ground, 'ft2'))} ft2`, sprayer }),
    ...(site === null ? {} : { site: site.name }),
    ...(site === null || area === null ? {} : { area: area.name }),
    ...(weed === undefined ? {} : { weed: weed.taxon ?? weed.words }),
    treatment: 'repeat',
    spots: 'same',
  }
}

function textOfRate(rate: Rate | undefined): string | null {
  if (rate === undefined) return null
  const { value, unit } = sayRate(rate)
  return `${value} ${unit}`
}

function alsoText(used: ProductUsed): string {
  const rate = textOfRate(recorded(used.rate))
  return rate === null ? used.name : `${used.name} @ ${rate}`
}
