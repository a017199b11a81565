import type { Big } from '#src/quantity/big.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { amountIn, compareQuantities, quantity } from '#src/quantity/quantity.ts'
import type { AreaUnit } from '#src/quantity/units.ts'
import type { Calculated, Figures, Finding } from '../worked.ts'
import { blocked, finding, step, worked } from '../worked.ts'
import {
  circleByCircumference,
  circleByRadius,
  ellipse,
  sidesMeet,
  simpsonRule,
  trapezoidRule,
  triangleBySides,
} from './plane.ts'
import type { Shape } from './shape.ts'

const feet = (length: Quantity) => amountIn(length, 'ft')

/** Longer than this is a slip, not a lawn (common practice, no source). */
export const LONGEST: Quantity<'mi'> = { value: '10', unit: 'mi' }

/**
 * The area of one shape.
 * @param unit unit of the result @default ft2
 */
export function measureShape(shape: Shape, unit: AreaUnit = 'ft2'): Calculated<Quantity<AreaUnit>> {
  const problems = shapeProblems(shape)
  if (problems.length > 0) return blocked(...problems)
  const area = quantity(amountIn(quantity(squareFeet(shape), 'ft2'), unit), unit)
  const id = shape.shape === 'circle' ? `area.shape.circle-${shape.by}` : `area.shape.${shape.shape}`
  return worked(area, [step(id, { ...measuresOf(shape), area })], shapeFindings(shape))
}

function squareFeet(shape: Shape): Big {
  switch (shape.shape) {
    case 'rectangle':
      return feet(shape.length).times(feet(shape.width))
    case 'triangle':
      return feet(shape.base).times(feet(shape.height)).div(2)
    case 'triangle-sides': {
      const [a, b, c] = shape.sides
      return triangleBySides(feet(a), feet(b), feet(c))
    }
    case 'trapezoid': {
      const [a, b] = shape.sides
      return feet(a).plus(feet(b)).times(feet(shape.height)).div(2)
    }
    case 'circle':
      return circle(shape.by, feet(shape.measure))
    case 'ellipse':
      return ellipse(feet(shape.long), feet(shape.short))
    case 'offsets': {
      const rule = shape.rule === 'simpson' ? simpsonRule : trapezoidRule
      return rule(shape.offsets.map(feet), feet(shape.spacing))
    }
    case 'known':
      return amountIn(shape.area, 'ft2')
    default:
      return shape satisfies never
  }
}

function circle(by: 'radius' | 'diameter' | 'circumference', measure: Big): Big {
  if (by === 'circumference') return circleByCircumference(measure)
  return circleByRadius(by === 'radius' ? measure : measure.div(2))
}

/** The measures of a shape by their names, as they stand in a sentence. */
export function measuresOf(shape: Shape): Figures {
  switch (shape.shape) {
    case 'triangle-sides': {
      const [a, b, c] = shape.sides
      return { a, b, c }
    }
    case 'trapezoid': {
      const [a, b] = shape.sides
      return { a, b, height: shape.height }
    }
    case 'circle':
      return { measure: shape.measure }
    case 'offsets':
      return {
        offsets: { all: shape.offsets },
        count: shape.offsets.length,
        spacing: shape.spacing,
        rule: { say: `area.rule.${shape.rule}` },
      }
    case 'known':
      return { known: shape.area }
    case 'rectangle':
      return { length: shape.length, width: shape.width }
    case 'triangle':
      return { base: shape.base, height: shape.height }
    case 'ellipse':
      return { long: shape.long, short: shape.short }
    default:
      return shape satisfies never
  }
}

function shapeProblems(shape: Shape): Finding[] {
  if (shape.shape === 'known') return notAboveZero(shape.area)
  if (shape.shape === 'offsets') return [...lengthProblems([shape.spacing]), ...offsetProblems(shape.offsets)]
  const lengths = Object.values(measuresOf(shape)).filter(isQuantity)
  const found = lengthProblems(lengths)
  if (found.length > 0 || shape.shape !== 'triangle-sides') return found
  const [a, b, c] = shape.sides
  return sidesMeet(feet(a), feet(b), feet(c))
    ? []
    : [finding('refusal', 'area.sides-do-not-meet', { a, b, c })]
}

function isQuantity(figure: unknown): figure is Quantity {
  return typeof figure === 'object' && figure !== null && 'value' in figure && 'unit' in figure
}

function lengthProblems(lengths: readonly Quantity[]): Finding[] {
  return lengths.flatMap((given) => [...notAboveZero(given), ...tooLong(given)])
}

function notAboveZero(given: Quantity): Finding[] {
  return compareNumbers(given.value, 0) > 0 ? [] : [finding('refusal', 'area.not-above-zero', { given })]
}

function tooLong(given: Quantity): Finding[] {
  if (compareQuantities(given, LONGEST) <= 0) return []
  return [finding('refusal', 'area.absurd', { given, most: LONGEST })]
}

function offsetProblems(offsets: readonly Quantity[]): Finding[] {
  const below = offsets.filter((offset) => big(offset.value).lt(0))
  const found = below.map((given) => finding('refusal', 'area.offset-below-zero', { given }))
  if (offsets.every((offset) => big(offset.value).isZero()))
    found.push(finding('refusal', 'area.offsets-all-zero'))
  return [...found, ...offsets.flatMap(tooLong)]
}

/** Simpson's rule with an even number of offsets ends on a trapezoid: said, since a hand calculation may differ. */
function shapeFindings(shape: Shape): Finding[] {
  const even = shape.shape === 'offsets' && shape.rule === 'simpson' && shape.offsets.length % 2 === 0
  return even ? [finding('heads-up', 'area.simpson-even', { count: shape.offsets.length })] : []
}
