import { scaleLinear } from 'd3-scale'
import { hatchLines, type Line, points } from '../figures/geometry.ts'
import { pathOf } from '../figures/pen.ts'
import { sizes } from '../page.ts'
import { el, type SvgNode } from '../svg.ts'
import { textLine } from '../text/block.ts'
import type { Theme } from '../theme.ts'

export const TANK_WIDTH = 286
export const TANK_HEIGHT = 470

const WALL = { left: 4, right: 166, top: 64, bottom: 462 } as const
/** The most marks that stay readable beside each other. */
const MOST_MARKS = 16

export interface TankLevels {
  readonly full: string
  readonly fill: string
  readonly inTank?: string
  readonly mark?: string
}

/** A tank with its marks; the fill line is bold with its volume, what was in it already is hatched. */
export function tankDrawing(levels: TankLevels, theme: Theme, print: (volume: string) => string) {
  const full = Number(levels.full)
  const height = scaleLinear([0, full], [WALL.bottom, WALL.top + 26])
  return (x: number, y: number): SvgNode[] => {
    const at = (volume: string) => y + height(Number(volume))
    const body = (top: number): Line => {
      return points(
        x + WALL.left,
        top,
        x + WALL.right,
        top,
        x + WALL.right,
        y + WALL.bottom,
        x + WALL.left,
        y + WALL.bottom,
      )
    }
    const inTank = levels.inTank !== undefined && Number(levels.inTank) > 0 ? body(at(levels.inTank)) : null
    const label = (volume: string, weight: 'bold' | 'plain') =>
      textLine(x + WALL.right + 14, at(volume) + 9, print(volume), {
        size: sizes.small,
        fill: theme.ink,
        weight,
      })
    const showsFull = at(levels.fill) - at(levels.full) > 34
    return [
      el('path', { d: pathOf(body(at(levels.fill)), true), fill: theme.shade }),
      ...(inTank === null ? [] : [strokes(hatchLines(inTank, -45, 14), theme.ink, 2.5)]),
      el('path', {
        d: tankOutline(x, y),
        fill: 'none',
        stroke: theme.ink,
        'stroke-width': 6,
        'stroke-linejoin': 'round',
      }),
      ...markValues(full, levels.mark).map((volume) => {
        const level = y + height(volume)
        return strokes([points(x + WALL.right - 26, level, x + WALL.right, level)], theme.ink, 3)
      }),
      strokes(
        [points(x + WALL.left - 4, at(levels.fill), x + WALL.right + 8, at(levels.fill))],
        theme.ink,
        9,
      ),
      label(levels.fill, 'bold'),
      ...(showsFull ? [label(levels.full, 'plain')] : []),
    ]
  }
}

/** The tank's own marks; where they are unknown or too close, even steps. */
function markValues(full: number, mark?: string): readonly number[] {
  const step = mark === undefined ? 0 : Number(mark)
  const count = step > 0 ? Math.floor(full / step) : 0
  if (count === 0 || count > MOST_MARKS)
    return scaleLinear([0, full], [0, 1])
      .ticks(8)
      .filter((volume) => volume > 0)
  return Array.from({ length: count }, (_, at) => (at + 1) * step)
}

function tankOutline(x: number, y: number): string {
  const { left, right, top, bottom } = WALL
  const neck = { left: x + left + 50, right: x + right - 50 }
  const shape = points(
    neck.left,
    y + 10,
    neck.right,
    y + 10,
    neck.right,
    y + top - 18,
    x + right,
    y + top,
    x + right,
    y + bottom,
    x + left,
    y + bottom,
    x + left,
    y + top,
    neck.left,
    y + top - 18,
  )
  return pathOf(shape, true)
}

function strokes(lines: readonly Line[], color: string, width: number): SvgNode {
  const d = lines.map((line) => pathOf(line)).join('')
  return el('path', { d, fill: 'none', stroke: color, 'stroke-width': width, 'stroke-linecap': 'butt' })
}
