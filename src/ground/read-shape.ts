import type { Shape } from '#src/calculator/area/shape.ts'
import { type Reader, reader } from '#src/conversation/reader.ts'
import { say } from '#src/conversation/text.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { UnitOf } from '#src/quantity/units.ts'
import type { AreaOptions, ShapeOption } from './options.ts'

type Length = Quantity<UnitOf<'length'>>
type Option = keyof AreaOptions

export type ReadShape =
  | { readonly kind: 'shape'; readonly shape: Shape; readonly without: readonly Shape[] }
  | { readonly kind: 'asks'; readonly missing: readonly Option[] }
  | { readonly kind: 'problems'; readonly problems: Reader['problems'] }

/** The typed measures as a shape, and the beds and buildings in it; or what is missing, or every problem. */
export function readShape(given: AreaOptions, locale: string): ReadShape {
  const read = reader(locale)
  const length = (option: Option, text: string | undefined) =>
    read.quantity(option, text, { expect: 'length', bareUnit: 'ft', allowZero: option === 'measurements' })
  const list = (option: Option) =>
    String(given[option] ?? '')
      .split(/\s*;\s*/)
      .filter((one) => one !== '')
      .map((one) => length(option, one))
      .filter((one) => one !== undefined)
  const built = build(given, (option) => length(option, given[option] as string | undefined), list)
  const without = readMinus(given.minus ?? '', read)
  if (read.problems.length > 0) return { kind: 'problems', problems: read.problems }
  return Array.isArray(built)
    ? { kind: 'asks', missing: built }
    : { kind: 'shape', shape: built as Shape, without }
}

type One = (option: Option) => Length | undefined
type Many = (option: Option) => readonly Length[]

/** The shape, or the options that it still needs. */
function build(given: AreaOptions, one: One, many: Many): Shape | Option[] {
  const needs = (...options: Option[]) => options.filter((option) => given[option] === undefined)
  switch (given.shape) {
    case 'rectangle': {
      const [length, width] = [one('length'), one('width')]
      return length && width ? { shape: 'rectangle', length, width } : needs('length', 'width')
    }
    case 'triangle': {
      const [a, b, c] = many('sides')
      if (a && b && c) return { shape: 'triangle-sides', sides: [a, b, c] }
      const [base, height] = [one('base'), one('height')]
      return base && height ? { shape: 'triangle', base, height } : needs('base', 'height')
    }
    case 'trapezoid': {
      const [a, b] = many('sides')
      const height = one('height')
      return a && b && height ? { shape: 'trapezoid', sides: [a, b], height } : needs('sides', 'height')
    }
    case 'circle': {
      for (const by of ['radius', 'diameter', 'circumference'] as const) {
        const measure = one(by)
        if (measure) return { shape: 'circle', by, measure }
      }
      return ['diameter']
    }
    case 'ellipse': {
      const [long, short] = [one('length'), one('width')]
      return long && short ? { shape: 'ellipse', long, short } : needs('length', 'width')
    }
    case 'offsets': {
      const spacing = one('spacing')
      const offsets = [...many('measurements')]
      if (!spacing || offsets.length < 2) return needs('spacing', 'measurements')
      return { shape: 'offsets', rule: given.rule ?? 'trapezoid', spacing, offsets }
    }
    default:
      return given.shape satisfies never
  }
}

/** `rectangle 10 x 20 ft; circle 6 ft; 300 ft2`: beds, buildings and drives to leave out. A circle goes by diameter. */
function readMinus(text: string, read: Reader): Shape[] {
  return text
    .split(/\s*;\s*/)
    .filter((one) => one !== '')
    .flatMap((piece) => {
      const shape = readPiece(piece, read)
      if (shape === null) read.refuse('minus', say('ground.minus', { text: piece }))
      return shape === null ? [] : [shape]
    })
}

const NAMES: Readonly<Record<string, ShapeOption>> = {
  rectangle: 'rectangle',
  rectángulo: 'rectangle',
  bed: 'rectangle',
  house: 'rectangle',
  casa: 'rectangle',
  circle: 'circle',
  círculo: 'circle',
  tree: 'circle',
  árbol: 'circle',
  triangle: 'triangle',
  triángulo: 'triangle',
}

function readPiece(piece: string, read: Reader): Shape | null {
  const word = /^([\p{L}]+)\s+(.*)$/u.exec(piece)
  const name = word?.[1] === undefined ? undefined : NAMES[word[1].toLowerCase()]
  const rest = name === undefined ? piece : (word?.[2] ?? '')
  const [first = '', second] = rest.split(/\s*[x×]\s*/i)
  if (second !== undefined) return readTwo(name, first, second, read)
  if (name === 'circle') {
    const measure = read.quantity('minus', first, { expect: 'length', bareUnit: 'ft' })
    return measure === undefined ? null : { shape: 'circle', by: 'diameter', measure }
  }
  const area = read.quantity('minus', rest, { expect: 'area', bareUnit: 'ft2' })
  return area === undefined ? null : { shape: 'known', area }
}

/** In `10 x 20 ft` the unit of the second goes for the first too. */
function readTwo(name: ShapeOption | undefined, first: string, second: string, read: Reader): Shape | null {
  const unit = /[^\d.,\s/].*$/.exec(second)?.[0] ?? 'ft'
  const a = read.quantity('minus', /[\p{L}'"]/u.test(first) ? first : `${first} ${unit}`, {
    expect: 'length',
  })
  const b = read.quantity('minus', second, { expect: 'length', bareUnit: 'ft' })
  if (a === undefined || b === undefined) return null
  return name === 'triangle'
    ? { shape: 'triangle', base: a, height: b }
    : { shape: 'rectangle', length: a, width: b }
}
