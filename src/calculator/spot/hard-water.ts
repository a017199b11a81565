import { big, compareNumbers, decimalText, sumOf } from '#src/quantity/big.ts'
import type { VolumeRate } from '#src/quantity/rate.ts'
import { volumeRate } from '#src/quantity/rate.ts'
import type { Calculated } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'

/** What a water test tells, in ppm each; what is not told counts as zero. */
export interface WaterTest {
  readonly potassium?: string
  readonly sodium?: string
  readonly calcium?: string
  readonly magnesium?: string
  readonly iron?: string
}

/** Pounds of ammonium sulfate per 100 gallons for each ppm: North Dakota State University, Crop & Pest Report, 2 July 2015. */
const LB_PER_100_GAL: Record<keyof WaterTest, string> = {
  potassium: '0.002',
  sodium: '0.005',
  calcium: '0.009',
  magnesium: '0.014',
  iron: '0.042',
}

/**
 * Ammonium sulfate that hard water needs (F36). The same source adds that labels ask for 8.5 to 17 lb per 100 gallons
 * and that 4 to 6 lb is enough for most waters: the label's figure comes first.
 */
export function sulfateForWater(test: WaterTest): Calculated<VolumeRate> {
  const parts = (Object.keys(LB_PER_100_GAL) as (keyof WaterTest)[]).map((ion) => ({
    ion,
    ppm: test[ion] ?? '0',
  }))
  const below = parts.filter(({ ppm }) => compareNumbers(ppm, 0) < 0)
  const problems = below.map(({ ion, ppm }) =>
    finding('refusal', 'spot.ppm-below-zero', {
      what: { say: `spot.ion.${ion}` },
      given: { value: ppm, unit: 'ppm' },
    }),
  )
  if (problems.length > 0) return blocked(...problems)
  const lb = sumOf(parts.map(({ ion, ppm }) => big(ppm).times(big(LB_PER_100_GAL[ion]))))
  const rate = volumeRate(lb, 'lb', { value: '100', unit: 'gal' })
  const figures = { sulfate: { value: decimalText(lb), unit: 'lb/100 gal' } }
  return worked(rate, [step('spot.sulfate', figures)], [finding('heads-up', 'spot.sulfate-label-first', {})])
}
