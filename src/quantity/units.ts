import type { Big } from './big.ts'
import { big, decimalText, withUnits } from './big.ts'

export type Dimension =
  | 'volume'
  | 'mass'
  | 'area'
  | 'length'
  | 'time'
  | 'speed'
  | 'flow'
  | 'pressure'
  | 'temperature'
  | 'fraction'

export type System = 'us' | 'metric' | 'both'

interface UnitRow {
  readonly dimension: Dimension
  /** What one of it is, built only on inch, foot, meter, gram and second, whose values are exact in mathjs. */
  readonly define: string
  readonly system: System
}

/**
 * Every unit, defined exactly: 1 in = 25.4 mm, 1 US gallon = 231 in³, 1 lb = 453.59237 g, 1 acre = 43,560 ft²
 * (NIST Handbook 44, Appendix C; NIST SP 811, Appendix B). The library's own acre is a rounded survey acre, its
 * cup, pint, quart, gallon and fluid ounce are rounded and its spoons metric, so none of those is used.
 */
export const units = {
  gal: { dimension: 'volume', define: '231 in^3', system: 'us' },
  qt: { dimension: 'volume', define: '57.75 in^3', system: 'us' },
  pt: { dimension: 'volume', define: '28.875 in^3', system: 'us' },
  cup: { dimension: 'volume', define: '14.4375 in^3', system: 'us' },
  'fl oz': { dimension: 'volume', define: '1.8046875 in^3', system: 'us' },
  tbsp: { dimension: 'volume', define: '0.90234375 in^3', system: 'us' },
  tsp: { dimension: 'volume', define: '0.30078125 in^3', system: 'us' },
  L: { dimension: 'volume', define: '1000 cm^3', system: 'metric' },
  mL: { dimension: 'volume', define: '1 cm^3', system: 'metric' },

  lb: { dimension: 'mass', define: '453.59237 g', system: 'us' },
  'oz wt': { dimension: 'mass', define: '28.349523125 g', system: 'us' },
  kg: { dimension: 'mass', define: '1000 g', system: 'metric' },
  g: { dimension: 'mass', define: '1 g', system: 'metric' },
  mg: { dimension: 'mass', define: '0.001 g', system: 'metric' },

  ft2: { dimension: 'area', define: '1 ft^2', system: 'us' },
  '1000 ft2': { dimension: 'area', define: '1000 ft^2', system: 'us' },
  acre: { dimension: 'area', define: '43560 ft^2', system: 'us' },
  m2: { dimension: 'area', define: '1 m^2', system: 'metric' },
  '100 m2': { dimension: 'area', define: '100 m^2', system: 'metric' },
  ha: { dimension: 'area', define: '10000 m^2', system: 'metric' },

  ft: { dimension: 'length', define: '12 in', system: 'us' },
  in: { dimension: 'length', define: '1 in', system: 'us' },
  yd: { dimension: 'length', define: '36 in', system: 'us' },
  mi: { dimension: 'length', define: '63360 in', system: 'us' },
  m: { dimension: 'length', define: '1 m', system: 'metric' },
  cm: { dimension: 'length', define: '0.01 m', system: 'metric' },
  mm: { dimension: 'length', define: '0.001 m', system: 'metric' },
  km: { dimension: 'length', define: '1000 m', system: 'metric' },

  s: { dimension: 'time', define: '1 s', system: 'both' },
  min: { dimension: 'time', define: '60 s', system: 'both' },
  h: { dimension: 'time', define: '3600 s', system: 'both' },
  day: { dimension: 'time', define: '86400 s', system: 'both' },

  mph: { dimension: 'speed', define: '0.44704 m/s', system: 'us' },
  'ft/min': { dimension: 'speed', define: '0.00508 m/s', system: 'us' },
  'km/h': { dimension: 'speed', define: '1000 m/hour', system: 'metric' },
  'm/s': { dimension: 'speed', define: '1 m/s', system: 'metric' },

  'gal/min': { dimension: 'flow', define: '231 in^3/minute', system: 'us' },
  'qt/min': { dimension: 'flow', define: '57.75 in^3/minute', system: 'us' },
  'pt/min': { dimension: 'flow', define: '28.875 in^3/minute', system: 'us' },
  'fl oz/min': { dimension: 'flow', define: '1.8046875 in^3/minute', system: 'us' },
  'L/min': { dimension: 'flow', define: '1000 cm^3/minute', system: 'metric' },
  'mL/min': { dimension: 'flow', define: '1 cm^3/minute', system: 'metric' },

  psi: { dimension: 'pressure', define: '4.4482216152605 N/in^2', system: 'us' },
  bar: { dimension: 'pressure', define: '100000 N/m^2', system: 'metric' },
  kPa: { dimension: 'pressure', define: '1000 N/m^2', system: 'metric' },

  F: { dimension: 'temperature', define: '', system: 'us' },
  C: { dimension: 'temperature', define: '', system: 'metric' },

  '%': { dimension: 'fraction', define: '', system: 'both' },
} as const satisfies Record<string, UnitRow>

export type UnitId = keyof typeof units

export type UnitOf<D extends Dimension> = {
  [U in UnitId]: (typeof units)[U]['dimension'] extends D ? U : never
}[UnitId]

export type VolumeUnit = UnitOf<'volume'>
export type MassUnit = UnitOf<'mass'>
export type AreaUnit = UnitOf<'area'>
export type AmountUnit = VolumeUnit | MassUnit

export const unitIds = Object.keys(units) as [UnitId, ...UnitId[]]

export function isUnitId(text: string): text is UnitId {
  return Object.hasOwn(units, text)
}

export function dimensionOf(unit: UnitId): Dimension {
  return units[unit].dimension
}

export function systemOf(unit: UnitId): System {
  return units[unit].system
}

/** All units of one dimension, in the order of the table. */
export function unitsOf<D extends Dimension>(dimension: D): [UnitOf<D>, ...UnitOf<D>[]] {
  return unitIds.filter((id) => units[id].dimension === dimension) as unknown as [UnitOf<D>, ...UnitOf<D>[]]
}

export const volumeUnits = unitsOf('volume')
export const massUnits = unitsOf('mass')
export const areaUnits = unitsOf('area')
export const amountUnits = [...volumeUnits, ...massUnits] as [AmountUnit, ...AmountUnit[]]

export function isVolumeUnit(unit: UnitId): unit is VolumeUnit {
  return dimensionOf(unit) === 'volume'
}

export function isMassUnit(unit: UnitId): unit is MassUnit {
  return dimensionOf(unit) === 'mass'
}

export function isAreaUnit(unit: UnitId): unit is AreaUnit {
  return dimensionOf(unit) === 'area'
}

/** What factors are counted in, chosen so that all but psi come out as finite decimals. */
const BASE: Partial<Record<Dimension, string>> = {
  volume: 'cm^3',
  mass: 'g',
  area: 'm^2',
  length: 'm',
  time: 's',
  speed: 'km/hour',
  flow: 'cm^3/minute',
  pressure: 'N/m^2',
}

let library: ReturnType<typeof withUnits> | null = null

function measureFactor(id: UnitId): Big {
  const base = BASE[dimensionOf(id)]
  if (base === undefined) return big(1)
  library ??= withUnits()
  return big(decimalText(library.unit(units[id].define).toNumeric(base) as Big))
}

/** Measured when first asked for: a start needs none of them. */
const factors = new Map<UnitId, Big>()

/**
 * How many base units (mL, g, m², m, s, km/h, mL/min, Pa) one of this unit is. Temperatures and % have none that is
 * of use: they are 1.
 */
export function factorOf(unit: UnitId): Big {
  const known = factors.get(unit)
  if (known !== undefined) return known
  const measured = measureFactor(unit)
  factors.set(unit, measured)
  return measured
}
