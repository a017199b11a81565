import type { Line, Point } from '../figures/geometry.ts'
import { toward } from '../figures/geometry.ts'
import { pathOf } from '../figures/pen.ts'
import { el, type SvgNode } from '../svg.ts'
import type { Theme } from '../theme.ts'

/** A rated plot is drawn in a square of this side. */
export const PLOT_SIDE = 200

/** Places of the twenty weeds of the plot, by hand: uneven, as they grow, and none behind another. */
const WEEDS: Line = [
  [44, 47],
  [80, 42],
  [117, 49],
  [156, 44],
  [34, 82],
  [64, 85],
  [98, 78],
  [132, 85],
  [166, 80],
  [46, 117],
  [81, 121],
  [114, 114],
  [149, 121],
  [36, 152],
  [68, 157],
  [100, 150],
  [134, 159],
  [166, 152],
  [83, 182],
  [120, 184],
]

/** Which of them die first: scattered over the plot, so that no step looks like a strip that was missed. */
const DYING_ORDER = [6, 17, 2, 13, 10, 4, 16, 8, 0, 11, 18, 3, 14, 7, 9, 1, 12, 19, 5, 15]

/** The plot with a share of its weeds dead: living ones stand up, bold; dead ones lie flat, thin and broken. */
export function ratedPlot(deadPercent: number, theme: Theme): SvgNode[] {
  const dead = new Set(DYING_ORDER.slice(0, Math.round((deadPercent * WEEDS.length) / 100)))
  return [
    el('rect', {
      x: 1.5,
      y: 1.5,
      width: PLOT_SIDE - 3,
      height: PLOT_SIDE - 3,
      fill: 'none',
      stroke: theme.ink,
      'stroke-width': 3,
    }),
    ...WEEDS.map((at, index) => (dead.has(index) ? deadWeed(at, index, theme) : livingWeed(at, theme))),
  ]
}

const LEANS = [-52, -26, 0, 26, 52]

function livingWeed(root: Point, theme: Theme): SvgNode {
  const blades = LEANS.map((lean) => [root, toward(root, lean - 90, lean === 0 ? 27 : 23)] as const)
  return el('path', {
    d: blades.map((blade) => pathOf(blade)).join(''),
    fill: 'none',
    stroke: theme.ink,
    'stroke-width': 5,
    'stroke-linecap': 'round',
  })
}

/** Fallen to both sides, one more to the left or the right, so that dead weeds are not all alike. */
function deadWeed([x, y]: Point, index: number, theme: Theme): SvgNode {
  const side = index % 2 === 0 ? 1 : -1
  const blades: readonly Line[] = [
    [
      [x - 14, y - 2],
      [x + 14, y - 4],
    ],
    [
      [x - 4 * side, y - 9],
      [x + 14 * side, y - 11],
    ],
  ]
  return el('path', {
    d: blades.map((blade) => pathOf(blade)).join(''),
    fill: 'none',
    stroke: theme.ink,
    'stroke-width': 2.6,
    'stroke-dasharray': '5 4',
  })
}
