import { rateOnBands } from '#src/calculator/spot/band.ts'
import { groundPerGallon } from '#src/calculator/spot/spot-rate.ts'
import type { Fact } from '#src/conversation/reply.ts'
import { factValue, sayStep } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { decimalText } from '#src/quantity/big.ts'
import { amountIn, type Quantity } from '#src/quantity/quantity.ts'
import type { Output, Rate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { UnitOf } from '#src/quantity/units.ts'

type Length = Quantity<UnitOf<'length'>>

/** What a reply says beside the rate itself, or instead of it when it leads. */
export type Beside =
  | {
      readonly ok: true
      readonly leads: boolean
      readonly title: Text
      readonly lines: readonly Text[]
      readonly facts: readonly Fact[]
      readonly working: readonly Text[]
    }
  | { readonly ok: false; readonly problems: readonly Text[] }

/** The rate over the whole field when only bands of it are sprayed. */
export function onBands(rate: Rate, band: Length, row: Length): Beside {
  if (rate.kind !== 'area') return { ok: false, problems: [say('rate.band-per-area')] }
  const found = rateOnBands(rate, band, row)
  if (!found.ok) return { ok: false, problems: found.problems.map(sayStep) }
  const perField = sayRate(found.value.perField)
  const sprayed = { value: found.value.sprayedPercent, unit: '%' }
  return {
    ok: true,
    leads: true,
    title: say('rate.per-field', { rate: perField }),
    lines: [say('rate.in-band', { rate: sayRate(rate), sprayed })],
    facts: [
      { name: 'per_field', value: factValue(perField.value), unit: perField.unit },
      { name: 'sprayed', value: factValue(sprayed.value), unit: '%' },
    ],
    working: found.working.map(sayStep),
  }
}

/** Ground that one gallon, or one liter, of the mix covers; an acre's share too where that is pictured better. */
export function perGallon(output: Output, unit: 'ft2' | 'm2'): Beside {
  const found = groundPerGallon(output, unit)
  if (!found.ok) return { ok: false, problems: found.problems.map(sayStep) }
  const acres = { value: decimalText(amountIn(found.value, 'acre')), unit: 'acre' }
  const title = say('rate.gallon-covers', { ground: found.value, acres })
  return {
    ok: true,
    leads: false,
    title,
    lines: [],
    facts: [
      { name: 'gallon_covers', value: factValue(found.value.value), unit },
      { name: 'gallon_covers_acres', value: factValue(acres.value), unit: 'acre' },
    ],
    working: found.working.map(sayStep),
  }
}
