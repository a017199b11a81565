import type { Shape } from '#src/calculator/area/shape.ts'
import type { Length } from '#src/calculator/calibrate/measured.ts'
import { readQuantities } from '#src/conversation/read-quantities.ts'
import type { Reader } from '#src/conversation/reader.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { parseQuantity } from '#src/quantity/parse.ts'

/** One piece of ground from a line of text: `rectangle 10x20 ft`, `circle 6 ft`, `house 30 x 42 ft`, `350 ft2`. */
export interface Piece {
  readonly shape: Shape
  /** What it was called, if anything. */
  readonly name: string
  /** How it was read, where another reading was possible. */
  readonly notes: readonly Text[]
}

type Named = 'rectangle' | 'square' | 'triangle' | 'trapezoid' | 'circle' | 'ellipse'
type RoundBy = 'radius' | 'diameter' | 'circumference'

const SHAPES: Readonly<Record<string, Named>> = {
  rectangle: 'rectangle',
  rectangulo: 'rectangle',
  square: 'square',
  cuadrado: 'square',
  triangle: 'triangle',
  triangulo: 'triangle',
  trapezoid: 'trapezoid',
  trapecio: 'trapezoid',
  circle: 'circle',
  round: 'circle',
  circulo: 'circle',
  ellipse: 'ellipse',
  oval: 'ellipse',
  elipse: 'ellipse',
  ovalo: 'ellipse',
}

const ROUND_BY: Readonly<Record<string, RoundBy>> = {
  radius: 'radius',
  radio: 'radius',
  r: 'radius',
  diameter: 'diameter',
  diametro: 'diameter',
  across: 'diameter',
  d: 'diameter',
  circumference: 'circumference',
  circunferencia: 'circumference',
  around: 'circumference',
}

const FIGURES: Readonly<Record<Named, readonly number[]>> = {
  rectangle: [2],
  square: [1],
  triangle: [2, 3],
  trapezoid: [3],
  circle: [1],
  ellipse: [2],
}

interface Taken {
  readonly shape: Named | undefined
  readonly by: RoundBy | undefined
  readonly name: string
  readonly figures: readonly string[]
}

/**
 * Reads one piece. With no shape named, two lengths are a rectangle and an area stands for itself. The reader keeps
 * what could not be read; then nothing is returned.
 */
export function readPiece(
  text: string,
  option: string,
  read: Reader,
  bareUnit: 'ft' | 'm',
): Piece | undefined {
  const taken = takeApart(text)
  const known = taken.shape === undefined && taken.by === undefined ? knownArea(taken) : undefined
  if (known !== undefined) return known
  const shape = taken.shape ?? (taken.by === undefined ? 'rectangle' : 'circle')
  const expected = FIGURES[shape]
  if (!expected.includes(taken.figures.length)) {
    read.refuse(option, say('ground.piece-figures', { text, example: say(`ground.example.${shape}`) }))
    return undefined
  }
  const lengths = readQuantities(read, option, taken.figures, { expect: 'length', bareUnit })
  if (lengths === undefined) return undefined
  const notes = shape === 'circle' && taken.by === undefined ? [say('ground.read-as-diameter', { text })] : []
  return { shape: build(shape, lengths, taken.by ?? 'diameter'), name: taken.name, notes }
}

function takeApart(text: string): Taken {
  let shape: Named | undefined
  let by: RoundBy | undefined
  const rest = text.replace(/\p{L}[\p{L}\p{M}]*/gu, (word) => {
    const plain = word.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
    if (shape === undefined && SHAPES[plain] !== undefined) {
      shape = SHAPES[plain]
      return ' '
    }
    if (by === undefined && ROUND_BY[plain] !== undefined) {
      by = ROUND_BY[plain]
      return ' '
    }
    return word
  })
  const start = rest.search(/[\d½¼¾.]/)
  const name = (start < 0 ? rest : rest.slice(0, start)).replace(/[\s:,=]+$/, '').trim()
  const figures = (start < 0 ? '' : rest.slice(start))
    .split(/\s*[x×*]\s*|\s+(?:by|por)\s+|,\s+/i)
    .map((one) => one.trim())
    .filter((one) => one !== '')
  return { shape, by, name, figures }
}

function knownArea({ figures, name }: Taken): Piece | undefined {
  const [figure, ...others] = figures
  if (figure === undefined || others.length > 0) return undefined
  const area = parseQuantity(figure, { expect: 'area' })
  return area.ok ? { shape: { shape: 'known', area: area.value }, name, notes: [] } : undefined
}

function build(shape: Named, lengths: readonly Length[], by: RoundBy): Shape {
  const [a, b, c] = lengths
  if (a === undefined) throw new RangeError('A shape needs a length')
  if (shape === 'circle') return { shape, by, measure: a }
  if (shape === 'square') return { shape: 'rectangle', length: a, width: a }
  if (b === undefined) throw new RangeError('This shape needs two lengths')
  if (shape === 'rectangle') return { shape, length: a, width: b }
  if (shape === 'ellipse') return { shape, long: a, short: b }
  if (c === undefined) return { shape: 'triangle', base: a, height: b }
  return shape === 'triangle'
    ? { shape: 'triangle-sides', sides: [a, b, c] }
    : { shape: 'trapezoid', sides: [a, b], height: c }
}
