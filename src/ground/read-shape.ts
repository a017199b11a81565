import type { Shape } from '#src/calculator/area/shape.ts'
import { readQuantities, splitList } from '#src/conversation/read-quantities.ts'
import type { Reader } from '#src/conversation/reader.ts'
import { say } from '#src/conversation/text.ts'
import type { AreaOptions, ShapeChoice } from './options.ts'

export type ReadShape =
  | { readonly kind: 'shape'; readonly shape: Shape }
  /** Options that would complete it. */
  | { readonly kind: 'missing'; readonly shape: ShapeChoice; readonly fields: readonly string[] }
  | { readonly kind: 'none' }
  | { readonly kind: 'problems' }

/** The shape that was named, or that the options given can only mean. */
export function shapeMeant(given: AreaOptions): ShapeChoice | undefined {
  if (given.shape !== undefined) return given.shape
  if (given.radius ?? given.diameter ?? given.circumference) return 'circle'
  if (given.measurements) return 'offsets'
  if (given.sides) return given.height === undefined ? 'triangle' : 'trapezoid'
  if (given.base) return 'triangle'
  return given.length || given.width ? 'rectangle' : undefined
}

/** The shape with all its measures, or the options that it lacks. */
export function readShape(given: AreaOptions, read: Reader, bareUnit: 'ft' | 'm'): ReadShape {
  const meant = shapeMeant(given)
  if (meant === undefined) return { kind: 'none' }
  const before = read.problems.length
  const one = (option: keyof AreaOptions) =>
    read.quantity(option, given[option], { expect: 'length', bareUnit })
  const several = (option: 'sides' | 'measurements', allowZero = false) => {
    const text = given[option]
    if (text === undefined) return undefined
    return readQuantities(read, option, splitList(text), { expect: 'length', bareUnit, allowZero })
  }
  const shape = builders[meant]({ given, one, several, read })
  if (read.problems.length > before) return { kind: 'problems' }
  return shape === undefined
    ? { kind: 'missing', shape: meant, fields: fieldsOf(meant, given) }
    : { kind: 'shape', shape }
}

interface Source {
  readonly given: AreaOptions
  readonly read: Reader
  readonly one: (option: keyof AreaOptions) => Length | undefined
  readonly several: (option: 'sides' | 'measurements', allowZero?: boolean) => Length[] | undefined
}
type Length = Extract<Shape, { shape: 'rectangle' }>['length']

const builders: Readonly<Record<ShapeChoice, (source: Source) => Shape | undefined>> = {
  rectangle({ one }) {
    const [length, width] = [one('length'), one('width')]
    return length && width && { shape: 'rectangle', length, width }
  },
  ellipse({ one }) {
    const [long, short] = [one('length'), one('width')]
    return long && short && { shape: 'ellipse', long, short }
  },
  triangle({ given, one, several, read }) {
    if (given.sides === undefined) {
      const [base, height] = [one('base'), one('height')]
      return base && height && { shape: 'triangle', base, height }
    }
    const [a, b, c, ...more] = several('sides') ?? []
    if (a && b && c && more.length === 0) return { shape: 'triangle-sides', sides: [a, b, c] }
    if (a) read.refuse('sides', say('ground.three-sides'))
    return undefined
  },
  trapezoid({ given, one, several, read }) {
    const [a, b, ...more] = several('sides') ?? []
    const height = one('height')
    if (given.sides !== undefined && a && (!b || more.length > 0))
      read.refuse('sides', say('ground.two-sides'))
    return a && b && height && { shape: 'trapezoid', sides: [a, b], height }
  },
  circle({ given, one, read }) {
    const by = (['radius', 'diameter', 'circumference'] as const).filter((name) => given[name] !== undefined)
    const [first, ...more] = by
    if (first === undefined) return undefined
    if (more.length > 0) read.refuse(more[0] ?? first, say('ground.one-round'))
    const measure = one(first)
    return measure && { shape: 'circle', by: first, measure }
  },
  offsets({ given, one, several, read }) {
    const offsets = several('measurements', true)
    const spacing = one('spacing')
    if (offsets !== undefined && (offsets.length < 2 || offsets.length > 200))
      read.refuse('measurements', say('ground.offsets-count', { given: offsets.length }))
    return offsets && spacing && { shape: 'offsets', rule: given.rule ?? 'trapezoid', spacing, offsets }
  },
}

const FIELDS: Readonly<Record<ShapeChoice, readonly (keyof AreaOptions)[]>> = {
  rectangle: ['length', 'width'],
  ellipse: ['length', 'width'],
  triangle: ['base', 'height', 'sides'],
  trapezoid: ['sides', 'height'],
  circle: ['diameter', 'circumference', 'radius'],
  offsets: ['measurements', 'spacing'],
}

/** A triangle is asked for by its sides only where base and height are unknown both. */
function fieldsOf(shape: ShapeChoice, given: AreaOptions): readonly string[] {
  const missing = FIELDS[shape].filter((name) => given[name] === undefined)
  return shape === 'triangle' && (given.base !== undefined || given.height !== undefined)
    ? missing.filter((name) => name !== 'sides')
    : missing
}
