import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, convertNumber, quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { sayOutput } from '#src/quantity/said.ts'
import type { AreaUnit, VolumeUnit } from '#src/quantity/units.ts'
import type { Finding } from '../worked.ts'
import { finding } from '../worked.ts'
import type { Area, Volume } from './measured.ts'

/** In which units an output is told. */
export interface OutputForm {
  readonly unit: VolumeUnit
  readonly per: Quantity<AreaUnit>
}

export const PER_THOUSAND: OutputForm = { unit: 'gal', per: { value: '1', unit: '1000 ft2' } }
export const PER_ACRE: OutputForm = { unit: 'gal', per: { value: '1', unit: 'acre' } }
export const PER_HECTARE: OutputForm = { unit: 'L', per: { value: '1', unit: 'ha' } }

/** Volume over ground, told in a form: F1 and F3 in one, since every unit is exact. */
export function outputOver(used: Volume, ground: Area, form: OutputForm): Output {
  const per = amountIn(ground, form.per.unit).div(big(form.per.value))
  return { ...quantity(amountIn(used, form.unit).div(per), form.unit), per: form.per }
}

/** The same output in other units: 1 gal/1000 ft2 is 43.56 gal/acre (F2). */
export function convertOutput(output: Output, form: OutputForm): Output {
  return outputOver({ value: output.value, unit: output.unit }, output.per, form)
}

/** @returns gallons per acre, with all working digits */
export function gallonsPerAcre(output: Output): Big {
  return convertNumber(output.value, output.unit, 'gal').div(amountIn(output.per, 'acre'))
}

export function fromGallonsPerAcre(gpa: Big, form: OutputForm): Output {
  return outputOver(quantity(gpa, 'gal'), quantity(1, 'acre'), form)
}

export interface OutputBand {
  readonly leastGpa: number
  readonly mostGpa: number
}

/** Where outputs of turf sprayers usually lie (common practice, no source). A setting, told as a heads-up. */
export const usualBand: OutputBand = { leastGpa: 10, mostGpa: 220 }

/** So many times outside the usual band nobody works: the catch or a unit is wrong (common practice, no source). */
const BEYOND_BELIEF = 10

/**
 * A heads-up when the output lies outside the usual band: catches a wrong unit, such as mph taken for ft/min. Ten times
 * outside it is held until it is caught again.
 */
export function outsideBand(output: Output, band: OutputBand = usualBand): Finding[] {
  const gpa = gallonsPerAcre(output)
  if (isWithin(gpa, band)) return []
  const wide = { leastGpa: band.leastGpa / BEYOND_BELIEF, mostGpa: band.mostGpa * BEYOND_BELIEF }
  const figures = {
    output: sayOutput(output),
    least: sayOutput(fromGallonsPerAcre(big(band.leastGpa), { unit: output.unit, per: output.per })),
    most: sayOutput(fromGallonsPerAcre(big(band.mostGpa), { unit: output.unit, per: output.per })),
  }
  return isWithin(gpa, wide)
    ? [finding('heads-up', 'calibrate.unusual-output', figures)]
    : [finding('hold', 'calibrate.impossible-output', figures)]
}

function isWithin(gpa: Big, { leastGpa, mostGpa }: OutputBand): boolean {
  return compareNumbers(gpa, leastGpa) >= 0 && compareNumbers(gpa, mostGpa) <= 0
}
