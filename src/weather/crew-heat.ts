import { big, compareNumbers } from '#src/quantity/big.ts'
import { amountIn } from '#src/quantity/quantity.ts'
import type { Guidance } from './guidance.ts'
import { heatIndexF } from './heat-index.ts'
import type { Temperature } from './readings.ts'
import type { Reason } from './reason.ts'
import { reason } from './reason.ts'

/** What the crew wears: the heavier and tighter, the more heat it keeps in. */
export type Clothing = 'work clothes' | 'coveralls' | 'chemical-resistant suit'

export interface CrewHeat {
  readonly heatIndex: { readonly value: string; readonly unit: 'F' }
  readonly band: 'lower' | 'moderate' | 'high' | 'extreme'
  /** The band to act by, with what is worn in mind. */
  readonly actOn: 'lower' | 'moderate' | 'high' | 'extreme'
  readonly reasons: readonly Reason[]
}

/** Bands that clothing adds (common practice, no source: OSHA says more care than the index shows, not how much). */
const heavier: Record<Clothing, number> = {
  'work clothes': 0,
  coveralls: 0,
  'chemical-resistant suit': 1,
}

/** Heat of the day for people at work, by the OSHA bands of the heat index. */
export function judgeCrewHeat(
  temperature: Temperature,
  humidityPercent: string,
  clothing: Clothing,
  guidance: Guidance,
): CrewHeat {
  const index = heatIndexF(amountIn(temperature, 'F').toNumber(), big(humidityPercent).toNumber())
  const heatIndex = { value: String(Number(index.toFixed(1))), unit: 'F' as const }
  const { bands, source } = guidance.heatIndex
  const at = bands.findLastIndex((band) => compareNumbers(heatIndex.value, band.fromF) >= 0)
  const level = Math.max(0, at)
  const raised = Math.min(bands.length - 1, level + heavier[clothing])
  const [band, actOn] = [bands[level], bands[raised]]
  if (band === undefined || actOn === undefined) throw new RangeError('Cannot judge heat without bands')
  const figures = { heatIndex, source: { literal: source.name } }
  const first =
    actOn.outcome === 'answer' ? [] : [reason(actOn.outcome, `weather.crew-heat-${actOn.id}`, figures)]
  const dressed = raised > level ? [reason('heads-up', 'weather.crew-heat-clothing', { heatIndex })] : []
  const coveralls =
    clothing === 'coveralls' && level > 0 ? [reason('heads-up', 'weather.crew-heat-coveralls')] : []
  return { heatIndex, band: band.id, actOn: actOn.id, reasons: [...first, ...dressed, ...coveralls] }
}
