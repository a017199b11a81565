import { hatchLines, type Line, type Point } from '../figures/geometry.ts'
import { pathOf } from '../figures/pen.ts'
import { MARGIN, PAGE_WIDTH, type Piece, sizes } from '../page.ts'
import { el, type SvgNode } from '../svg.ts'
import { textLine } from '../text/block.ts'
import { textWidth } from '../text/fonts.ts'
import type { Theme } from '../theme.ts'

export interface DrawnOutline {
  readonly points: Line
  readonly minus: boolean
  readonly name: string | null
  readonly lengths: readonly (string | null)[]
}

/** Room around the outline for the lengths of its sides. */
const EDGE = { across: 110, up: 54 } as const
const MOST_HEIGHT = 760

/** Outlines to scale, the area shaded, what is taken out of it hatched, lengths outside their sides. */
export function outlineDrawing(outlines: readonly DrawnOutline[], theme: Theme): Piece {
  const width = PAGE_WIDTH - 2 * MARGIN
  const { onPage, height } = fitting(
    outlines.flatMap((one) => one.points),
    width,
  )
  return {
    height,
    at: (x, y) => {
      const placed = outlines.map((one) => ({
        ...one,
        points: one.points.map((point) => onPage(point, x, y)),
      }))
      const labels = new Labels(theme)
      return [
        ...placed.filter((one) => !one.minus).map((one) => surface(one.points, theme)),
        ...placed.filter((one) => one.minus).flatMap((one) => cut(one.points, theme)),
        ...placed.flatMap((one) => sideLabels(one, labels)),
        ...placed.flatMap((one) => (one.name === null ? [] : labels.put(one.name, middleOf(one.points)))),
      ]
    },
  }
}

function fitting(points: Line, width: number) {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)]
  const [left, bottom] = [Math.min(...xs), Math.min(...ys)]
  const across = Math.max(Math.max(...xs) - left, Number.EPSILON)
  const up = Math.max(Math.max(...ys) - bottom, Number.EPSILON)
  const scale = Math.min((width - 2 * EDGE.across) / across, (MOST_HEIGHT - 2 * EDGE.up) / up)
  const height = up * scale + 2 * EDGE.up
  const shift = (width - across * scale) / 2
  const onPage = ([px, py]: Point, x: number, y: number): Point => {
    return [x + shift + (px - left) * scale, y + height - EDGE.up - (py - bottom) * scale]
  }
  return { onPage, height }
}

function surface(outline: Line, theme: Theme): SvgNode {
  const d = pathOf(outline, true)
  return el('path', {
    d,
    fill: theme.shade,
    stroke: theme.ink,
    'stroke-width': 6,
    'stroke-linejoin': 'round',
  })
}

function cut(outline: Line, theme: Theme): SvgNode[] {
  const d = pathOf(outline, true)
  const hatch = hatchLines(outline, 45, 14)
    .map((line) => pathOf(line))
    .join('')
  return [
    el('path', { d, fill: theme.paper, stroke: theme.ink, 'stroke-width': 4, 'stroke-linejoin': 'round' }),
    ...(hatch === '' ? [] : [el('path', { d: hatch, fill: 'none', stroke: theme.ink, 'stroke-width': 2 })]),
  ]
}

function sideLabels(one: DrawnOutline, labels: Labels): SvgNode[] {
  const middle = middleOf(one.points)
  return one.points.flatMap((from, at) => {
    const length = one.lengths[at]
    if (length === null || length === undefined) return []
    const to = one.points[(at + 1) % one.points.length] ?? from
    return labels.put(length, outside([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], from, to, middle))
  })
}

/** Off the side, away from the middle of the outline; wide text needs more room beside an upright side. */
function outside(at: Point, from: Point, to: Point, middle: Point): Point {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]) || 1
  const normal: Point = [(to[1] - from[1]) / length, (from[0] - to[0]) / length]
  const away = normal[0] * (at[0] - middle[0]) + normal[1] * (at[1] - middle[1]) >= 0 ? 1 : -1
  return [at[0] + away * normal[0] * 58, at[1] + away * normal[1] * 26]
}

function middleOf(outline: Line): Point {
  const sum = outline.reduce(([x, y], point) => [x + point[0], y + point[1]] as const, [0, 0] as Point)
  return [sum[0] / outline.length, sum[1] / outline.length]
}

/** Puts labels where no other label is yet; one that finds no room is left out. */
class Labels {
  readonly #taken: (readonly [number, number, number, number])[] = []
  readonly #theme: Theme

  constructor(theme: Theme) {
    this.#theme = theme
  }

  put(text: string, [x, y]: Point): SvgNode[] {
    const half = textWidth(text, sizes.small, 'bold') / 2
    const left = Math.min(Math.max(x - half, MARGIN), PAGE_WIDTH - MARGIN - 2 * half)
    const box = [left, y - 16, left + 2 * half, y + 16] as const
    const free = this.#taken.every(([l, t, r, b]) => box[2] < l || box[0] > r || box[3] < t || box[1] > b)
    if (!free) return []
    this.#taken.push(box)
    return [
      el('rect', { x: left - 4, y: y - 17, width: 2 * half + 8, height: 34, fill: this.#theme.paper }),
      textLine(left, y + 8, text, { size: sizes.small, fill: this.#theme.ink, weight: 'bold' }),
    ]
  }
}
