import { compareQuantities } from '#src/quantity/quantity.ts'
import type { Finding } from '../worked.ts'
import { finding } from '../worked.ts'
import type { Pressure } from './measured.ts'

/** What a kept calibration belongs to. It holds for nothing else. */
export interface CalibrationSetting {
  readonly sprayer: string
  /** In whose hands it was measured. */
  readonly person: string
  readonly tip?: string
  readonly pressure?: Pressure
  /** Opening of a spreader, gear, engine speed: as the crew writes it. */
  readonly setting?: string
}

/** Why a kept calibration does not hold for what is in hand now: empty when it does. */
export function whyVoid(kept: CalibrationSetting, now: CalibrationSetting): Finding[] {
  const texts = (['sprayer', 'person', 'tip', 'setting'] as const).filter((name) => kept[name] !== now[name])
  const found = texts.map((name) =>
    finding('hold', `calibrate.other-${name}`, { kept: kept[name] ?? '–', now: now[name] ?? '–' }),
  )
  return samePressure(kept.pressure, now.pressure) ? found : [...found, otherPressure(kept, now)]
}

function samePressure(a: Pressure | undefined, b: Pressure | undefined): boolean {
  if (a === undefined || b === undefined) return a === b
  return compareQuantities(a, b) === 0
}

function otherPressure(kept: CalibrationSetting, now: CalibrationSetting): Finding {
  return finding('hold', 'calibrate.other-pressure', { kept: kept.pressure ?? '–', now: now.pressure ?? '–' })
}
