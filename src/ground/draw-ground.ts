import { z } from 'zod'
import { type Drawing, type DrawnMeasure, drawShape } from '#src/calculator/area/drawing.ts'
import type { Shape } from '#src/calculator/area/shape.ts'
import type { Attachment } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Quantity } from '#src/quantity/quantity.ts'

export interface NamedShape {
  readonly shape: Shape
  readonly name: string
}

type Point = [number, number]
interface Outline {
  readonly points: Point[]
  readonly lengths?: (Text | null)[]
  readonly name?: Text
  readonly minus?: boolean
}

/** Corners that a round edge is drawn with. */
const ROUND_CORNERS = 48
/** Room between two pieces, as a share of the widest. */
const GAP_SHARE = 0.25

/**
 * The picture of what was measured: pieces side by side to one scale, since nobody said where each lies. One piece
 * carries its measures; of several each carries a number, in the order of pieces and of what lies in them.
 */
export function groundPicture(
  pieces: readonly NamedShape[],
  without: readonly NamedShape[],
  area: Quantity,
  title?: string,
): Attachment {
  const all = [
    ...pieces.map((one) => ({ ...one, minus: false })),
    ...without.map((one) => ({ ...one, minus: true })),
  ].map((one) => ({ ...one, drawing: drawShape(one.shape) }))
  const gap = GAP_SHARE * Math.max(...all.map(({ drawing }) => drawing.widthFt))
  let left = 0
  const outlines = all.map(({ drawing, name, minus }, at): Outline => {
    const outline = outlineOf(drawing, left)
    left += drawing.widthFt + gap
    if (all.length > 1) {
      const { lengths: _, ...plain } = outline
      const number = say('ground.outline-name', { name: String(at + 1) })
      return { ...plain, name: number, ...(minus ? { minus } : {}) }
    }
    const words = nameOf(name, drawing)
    return { ...outline, ...(words === null ? {} : { name: words }), ...(minus ? { minus } : {}) }
  })
  return {
    name: fileNameOf(title),
    alt: say('ground.picture', { area }),
    from: {
      picture: 'area-shape',
      data: z.json().parse({
        area: say('words.quantity', { quantity: area }),
        ...(title === undefined ? {} : { title }),
        outlines,
      }),
    },
  }
}

/** Several areas of one property stand in one message: each picture has its own name. */
function fileNameOf(title: string | undefined): string {
  const plain = (title ?? '')
    .normalize('NFD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
  return plain === '' ? 'area.png' : `area-${plain.toLowerCase()}.png`
}

function outlineOf(drawing: Drawing, left: number): Outline {
  const points = cornersOf(drawing)
  const along = sidesOf(drawing, points)
  const lengths = along.map((one) => (one === null ? null : say('words.quantity', { quantity: one.length })))
  return {
    points: points.map(([x, y]): Point => [x + left, y]),
    ...(lengths.some((one) => one !== null) ? { lengths } : {}),
  }
}

function cornersOf({ outline }: Drawing): readonly (readonly [number, number])[] {
  return outline.kind === 'polygon' ? outline.points : around(outline)
}

/** For each side what was measured along it; a width of nothing and a walk around are along none. */
function sidesOf({ measures }: Drawing, points: ReturnType<typeof cornersOf>): (DrawnMeasure | null)[] {
  const real = measures.filter(({ from, to }) => !isSame(from, to))
  return points.map((point, at) => {
    const next = points[(at + 1) % points.length] ?? point
    const isAlong = ({ from, to }: DrawnMeasure) =>
      (isSame(from, point) && isSame(to, next)) || (isSame(to, point) && isSame(from, next))
    return real.find(isAlong) ?? null
  })
}

type Ellipse = Extract<Drawing['outline'], { kind: 'ellipse' }>

function around({ center: [x, y], radiusXFt, radiusYFt }: Ellipse): Point[] {
  return Array.from({ length: ROUND_CORNERS }, (_, at): Point => {
    const angle = (2 * Math.PI * at) / ROUND_CORNERS
    return [x + radiusXFt * Math.cos(angle), y + radiusYFt * Math.sin(angle)]
  })
}

const isSame = (a: readonly [number, number], b: readonly [number, number]) =>
  Math.hypot(a[0] - b[0], a[1] - b[1]) < 1e-9

/** The most measures that find room inside an outline. */
const MOST_INSIDE = 2

/** The name of a piece, with the measures that lie along none of its sides: a radius, a height. */
function nameOf(name: string, drawing: Drawing): Text | null {
  const along = new Set(sidesOf(drawing, cornersOf(drawing)))
  const rest = drawing.measures.filter((one) => !along.has(one)).map(({ length }) => length)
  const inside = rest.length <= MOST_INSIDE ? rest : []
  if (name === '' && inside.length === 0) return null
  if (inside.length === 0) return say('ground.outline-name', { name })
  const measures = { all: inside }
  return name === ''
    ? say('ground.outline-measures', { measures })
    : say('ground.outline-both', { name, measures })
}
