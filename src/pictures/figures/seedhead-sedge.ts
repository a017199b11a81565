import type { SvgNode } from '../svg.ts'
import { oval, type Point, placesOn, points, ribbon, spline, toward } from './geometry.ts'
import { bracts, rays, stalk } from './head-parts.ts'
import { crossOut } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

const HUB: Point = [80, 104]

/** A sedge's umbrella: rays of equal length, with this at the end of each. */
function umbrella(
  count: number,
  length: number,
  end: (pen: Pen, at: Point, degrees: number) => readonly SvgNode[],
  spread = 75,
): Figure {
  return (pen) => [
    ...bracts(pen, HUB, 70),
    stalk(pen, HUB[1]),
    ...rays(HUB, count, length, spread).flatMap((ray) => [
      pen.stroke(ray.line, 'mid'),
      ...end(pen, ray.end, ray.degrees),
    ]),
  ]
}

/** Narrow spikelets that stand off like the bristles of a bottle brush, with air between. */
function openSpikelets(pen: Pen, at: Point, degrees: number): SvgNode[] {
  const axis = [toward(at, degrees + 180, 20), toward(at, degrees, 22)]
  return [
    pen.stroke(axis, 'thin'),
    pen.hairs(axis, { count: 5, length: 20, side: 0, lean: 18, weight: 'mid' }),
    pen.stroke([at, toward(at, degrees, 38)], 'mid'),
  ]
}

/** Flat spikelets of two rows of scales, spread like a hand. */
function flatSpikelets(pen: Pen, at: Point, degrees: number): SvgNode[] {
  return [-52, 0, 52].flatMap((turn) => {
    const line = [at, toward(at, degrees + turn, 34)]
    return [
      pen.shape(
        ribbon(line, (share) => 13 * (1 - share ** 4)),
        'shade',
        'thin',
      ),
      pen.stroke(line, 'hair'),
      pen.hairs(line, { count: 5, length: 6, side: 0, lean: 40, from: 0.15, to: 0.85, weight: 'hair' }),
    ]
  })
}

/** Spikelets loosely to all sides. */
function looseBall(pen: Pen, at: Point): SvgNode[] {
  return [
    ...Array.from({ length: 12 }, (_, n) =>
      pen.stroke([toward(at, n * 30, 5), toward(at, n * 30, 20)], 'mid'),
    ),
    pen.dot(at, 6),
  ]
}

function barrel(pen: Pen, at: Point, degrees: number): SvgNode[] {
  const axis = [toward(at, degrees + 180, 6), toward(at, degrees, 34)]
  const outline = ribbon(axis, (share) => 22 * Math.min(1, 6 * Math.min(share + 0.09, 1.09 - share)) ** 0.5)
  return [
    pen.shape(outline, 'shade', 'bold'),
    pen.hatch(outline, degrees + 60, 5),
    pen.hatch(outline, degrees - 60, 5),
  ]
}

const ballHead: Figure = (pen) => [
  ...[165, 15, 262].map((degrees) => {
    const end = toward([80, 92], degrees, 76)
    return pen.shape(
      ribbon(
        spline([[80, 92], [(80 + end[0]) / 2, (92 + end[1]) / 2 - 4], end]),
        (share) => 12 * (1 - share ** 3),
      ),
      'paper',
      'mid',
    )
  }),
  stalk(pen, 92),
  pen.ring([80, 78], 27, 'shade', 'bold'),
  pen.dots(points(80, 62, 66, 70, 94, 70, 72, 84, 88, 84, 80, 74, 62, 82, 98, 82, 80, 96), 3),
]

const clusterRush: Figure = (pen) => [
  pen.stroke(spline(points(76, 100, 68, 60, 60, 4)), 'bold'),
  pen.stroke(spline(points(84, 100, 100, 62, 120, 14)), 'bold'),
  stalk(pen, 98),
  ...rays([80, 100], 5, 32, 50).map((ray) => pen.stroke(ray.line, 'thin')),
  ...points(80, 60, 68, 74, 92, 74, 60, 62, 100, 62, 80, 82, 106, 78, 56, 80).map(([x = 0, y = 0]) =>
    pen.shape(oval([x, y], 6, 7.5), 'shade', 'mid'),
  ),
]

/** A small bulb with a drawn-out tip. */
function bulblet(pen: Pen, at: Point, degrees: number): SvgNode[] {
  const end = toward(at, degrees, 24)
  return [
    pen.stroke([toward(at, degrees, 12), end], 'thin'),
    pen.shape(
      ribbon(
        [toward(at, degrees + 180, 13), toward(at, degrees, 18)],
        (share) => 25 * Math.sin(Math.PI * (0.1 + 0.9 * share)) ** 0.7,
      ),
      'shade',
      'mid',
    ),
  ]
}

const bulbletHead: Figure = (pen) => [
  stalk(pen, 96),
  ...[-200, -165, -130, -90, -50, -15, 20].flatMap((degrees) =>
    bulblet(pen, toward([80, 72], degrees, 36), degrees),
  ),
  ...[-150, -90, -30, 50, 130].flatMap((degrees) => bulblet(pen, toward([80, 74], degrees, 14), degrees)),
]

const noneSeen: Figure = (pen) => [
  pen.stroke(points(80, 158, 80, 90), 'mid', '6 8'),
  pen.stroke([...oval([80, 60], 20, 46), [100, 60]], 'thin', '6 8'),
  ...placesOn(points(80, 96, 80, 24), 3).map(({ point }) => pen.dots([point], 3)),
  ...crossOut(pen, [80, 70], 68),
]

/** Heads of sedges, rushes and onions, and no head at all. */
export const otherHeads: FigureSet = {
  'umbel-spikes': umbrella(3, 54, openSpikelets, 62),
  'umbel-flat': umbrella(3, 54, flatSpikelets, 66),
  'umbel-balls': umbrella(5, 58, (pen, at) => looseBall(pen, at), 80),
  'umbel-cylinders': umbrella(5, 36, barrel, 78),
  'ball-head': ballHead,
  'cluster-rush': clusterRush,
  'none-seen': noneSeen,
  'bulblet-head': bulbletHead,
}
