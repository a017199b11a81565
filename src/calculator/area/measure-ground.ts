import { big, compareNumbers, sumOf } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import type { AreaUnit } from '#src/quantity/units.ts'
import type { Calculated, Finding, Step } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import { measureShape } from './measure-shape.ts'
import type { Ground, Shape } from './shape.ts'

export interface MeasuredGround {
  readonly area: Quantity<AreaUnit>
  readonly pieces: readonly Quantity<AreaUnit>[]
  readonly without: readonly Quantity<AreaUnit>[]
}

interface Measured {
  readonly areas: readonly Quantity<AreaUnit>[]
  readonly working: readonly Step[]
  readonly findings: readonly Finding[]
  readonly problems: readonly Finding[]
}

/**
 * Ground to treat (F57): all pieces, less beds, buildings and drives.
 * @param unit unit of every area in the result @default ft2
 */
export function measureGround(ground: Ground, unit: AreaUnit = 'ft2'): Calculated<MeasuredGround> {
  if (ground.pieces.length === 0) return blocked(finding('question', 'area.nothing-measured'))
  const pieces = measureAll(ground.pieces, unit)
  const without = measureAll(ground.without, unit)
  const problems = [...pieces.problems, ...without.problems]
  if (problems.length > 0) return blocked(...problems)
  const whole = quantity(sumOf(pieces.areas.map((one) => one.value)), unit)
  const taken = quantity(sumOf(without.areas.map((one) => one.value)), unit)
  const area = quantity(big(whole.value).minus(big(taken.value)), unit)
  if (compareNumbers(area.value, 0) <= 0)
    return blocked(finding('refusal', 'area.nothing-left', { whole, taken }))
  const totals = [
    ...(pieces.areas.length > 1 ? [step('area.sum', { pieces: { all: pieces.areas }, whole })] : []),
    ...(without.areas.length > 0 ? [step('area.less', { whole, taken, area })] : []),
  ]
  return worked(
    { area, pieces: pieces.areas, without: without.areas },
    [...pieces.working, ...without.working, ...totals],
    [...pieces.findings, ...without.findings],
  )
}

function measureAll(shapes: readonly Shape[], unit: AreaUnit): Measured {
  const results = shapes.map((shape) => measureShape(shape, unit))
  return {
    areas: results.flatMap((one) => (one.ok ? [one.value] : [])),
    working: results.flatMap((one) => (one.ok ? one.working : [])),
    findings: results.flatMap((one) => (one.ok ? one.findings : [])),
    problems: results.flatMap((one) => (one.ok ? [] : one.problems)),
  }
}

/** The same area in another unit, for telling it twice. */
export function alsoIn(area: Quantity<AreaUnit>, unit: AreaUnit): Quantity<AreaUnit> {
  return quantity(amountIn(area, unit), unit)
}
