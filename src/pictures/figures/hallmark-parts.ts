import type { SvgNode } from '../svg.ts'
import { placesOn, points, ribbon, spline, toward } from './geometry.ts'
import { grain, stalk } from './head-parts.ts'
import { sideJunction } from './junction.ts'
import { bent, blade, crossOut, ground, leafOutline, tuft } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'
import { burBall, grassHeads } from './seedhead-grass.ts'
import { underground } from './underground.ts'

const ocrea: Figure = (pen) => [
  pen.stroke(points(80, 158, 80, 4), 'heavy'),
  pen.shape(leafOutline(points(86, 108, 152, 70), 30), 'shade', 'mid'),
  pen.shape(
    points(62, 118, 64, 62, 70, 70, 74, 56, 80, 68, 86, 54, 90, 70, 96, 60, 98, 118),
    'paper',
    'bold',
  ),
  pen.stroke(points(80, 112, 80, 78), 'hair'),
]

const matchHead: Figure = (pen) => [
  ...[
    [50, 60, 20],
    [112, 70, 16],
  ].flatMap(([x = 0, y = 0, size = 0]) => [
    pen.stroke(spline(points(80, 158, (80 + x) / 2 + 2, 110, x, y)), 'mid'),
    pen.shape(
      ribbon(
        points(x, y + size, x, y - size),
        (share) => 26 * Math.sqrt(Math.sin(Math.PI * (0.1 + 0.8 * share))),
      ),
      'ink',
      'thin',
    ),
  ]),
]

const silverCenter: Figure = (pen) => [
  ...Array.from({ length: 10 }, (_, n) => {
    const degrees = n * 36 + 8
    return pen.shape(
      ribbon(
        [toward([80, 80], degrees, 12), toward([80, 80], degrees, 74)],
        (share) => 17 * Math.sqrt(1 - share ** 3),
      ),
      'shade',
      'mid',
    )
  }),
  pen.shape(
    Array.from({ length: 20 }, (_, n) => toward([80, 80], n * 18 + 8, n % 2 ? 22 : 36)),
    'white',
    'bold',
  ),
]

const torpedo: Figure = (pen) => {
  const line = spline(points(14, 34, 30, 74, 62, 94, 100, 98))
  return [
    ...ground(pen, 34),
    ...tuft(pen, [14, 34], 30, 1, 8),
    pen.shape(
      ribbon(line, () => 16),
      'white',
      'mid',
    ),
    ...placesOn(line, 3, 0.35, 0.8).map(({ point, degrees }) =>
      pen.over('white').stroke([toward(point, degrees - 90, 7), toward(point, degrees + 90, 7)], 'mid'),
    ),
    pen.shape(points(92, 84, 124, 86, 156, 100, 124, 114, 92, 112), 'white', 'bold'),
    pen.over('white').stroke(points(112, 86, 122, 100, 112, 113), 'thin'),
  ]
}

const hairLine: Figure = (pen) => [
  pen.shape(points(62, 4, 98, 4, 98, 158, 62, 158), 'shade', 'no-line'),
  pen.stroke(points(62, 4, 62, 158), 'mid'),
  pen.stroke(points(98, 4, 98, 158), 'mid'),
  pen.hairs(points(98, 154, 98, 8), { count: 16, length: 26, side: 1, lean: 20, weight: 'thin' }),
]

const fruitRow: Figure = (pen) => [
  pen.stroke(spline(points(6, 62, 70, 58, 154, 74)), 'bold'),
  ...[26, 50, 74, 98, 122].flatMap((x) => [
    pen.shape(leafOutline(points(x, 58, x + 16, 22), 15), 'shade', 'thin'),
    pen.stroke(points(x + 4, 64, x + 4, 80), 'thin'),
    pen.ring([x + 4, 90], 10, 'shade', 'bold'),
  ]),
]

const smut: Figure = (pen) => [
  pen.stroke(points(80, 158, 80, 110), 'bold'),
  pen.shape(
    ribbon(points(80, 122, 80, 6), (share) => 24 * Math.sqrt(Math.sin(Math.PI * (0.06 + 0.9 * share)))),
    'black',
    'mid',
  ),
  pen.dots(points(52, 40, 108, 56, 48, 84, 112, 98, 60, 116, 104, 24, 100, 128, 56, 62), 2.6),
]

const pods: Figure = (pen) => [
  ...points(52, 20, 80, 6, 108, 22).flatMap(([x = 0, y = 0]) => [
    pen.stroke(spline(points(80, 156, (80 + x) / 2, 124, x, 96)), 'mid'),
    pen.shape(
      ribbon(
        points(x, 98, x, y),
        (share) => 20 * (1 - share ** 5) * (0.75 + 0.25 * Math.sin(Math.PI * share)),
      ),
      'shade',
      'bold',
    ),
    pen.stroke(points(x, 94, x, y + 14), 'thin'),
  ]),
]

const jointedPods: Figure = (pen) => [
  pen.stroke(spline(points(10, 24, 26, 32, 36, 44)), 'mid'),
  ...placesOn(spline(points(44, 48, 76, 76, 104, 96, 136, 136)), 5).flatMap(({ point, degrees }) => [
    pen.shape(
      ribbon(
        [toward(point, degrees + 180, 15), toward(point, degrees, 15)],
        (share) => 28 * Math.sqrt(Math.sin(Math.PI * (0.08 + 0.84 * share))),
      ),
      'shade',
      'mid',
    ),
    pen.hairs([toward(point, degrees + 180, 8), toward(point, degrees, 8)], {
      count: 3,
      length: 22,
      side: 0,
      weight: 'hair',
    }),
  ]),
]

const puffball: Figure = (pen) => [
  pen.stroke(points(80, 158, 80, 66), 'bold'),
  ...Array.from({ length: 20 }, (_, n) => {
    const end = toward([80, 62], n * 18, 44)
    return [
      pen.stroke([[80, 62], end], 'hair'),
      ...[-40, 0, 40].map((turn) => pen.stroke([end, toward(end, n * 18 + turn, 13)], 'hair')),
    ]
  }).flat(),
  pen.dot([80, 62], 9),
]

const curvedHead: Figure = (pen) => {
  const line = spline(points(60, 158, 60, 110, 64, 70, 84, 34, 124, 22))
  return [
    pen.stroke(line, 'mid'),
    ...placesOn(line, 10, 0.42, 0.97).flatMap(({ point, degrees }) => [
      grain(pen, point, degrees + 12, 15, 'hair'),
      grain(pen, point, degrees - 12, 15, 'hair'),
    ]),
  ]
}

const peeling: Figure = (pen) => [
  pen.shape(points(58, 4, 102, 4, 102, 158, 58, 158), 'shade', 'no-line'),
  pen.stroke(points(58, 4, 58, 158), 'mid'),
  pen.stroke(points(102, 4, 102, 158), 'mid'),
  pen.shape(
    spline(points(102, 152, 104, 116, 122, 76, 150, 66, 146, 84, 130, 104, 122, 154), true),
    'paper',
    'bold',
  ),
  pen.shape(spline(points(60, 150, 56, 108, 40, 66, 14, 50, 16, 70, 30, 98, 38, 154), true), 'paper', 'bold'),
  pen.stroke(points(74, 20, 74, 150), 'hair'),
  pen.stroke(points(86, 10, 86, 150), 'hair'),
]

function reuse(set: FigureSet, state: string): Figure {
  const figure = set[state]
  if (figure === undefined) throw new Error(`Cannot reuse a figure: there is none for ${state}`)
  return figure
}

const silkyThreads: Figure = (pen) => [
  blade(pen, bent([84, 100], -34, 70, 20), 13),
  ...[-112, -98, -84, -70].map((degrees) =>
    pen.stroke(bent([78, 84], degrees, 76, (degrees + 90) * 2), 'hair'),
  ),
  pen.shape(
    ribbon(points(78, 158, 78, 78), (share) => 38 * (1 - 0.5 * share ** 2)),
    'shade',
    'bold',
  ),
]

const none: Figure = (pen): SvgNode[] => [
  pen.stroke(points(18, 18, 142, 18, 142, 142, 18, 142, 18, 18), 'mid', '8 8'),
  ...crossOut(pen, [80, 80], 62),
]

/** Hallmarks on stems, heads and below ground, and none of them. */
export const partHallmarks: FigureSet = {
  ocrea,
  'rattle-tuber': reuse(underground, 'tubers-segmented'),
  'match-head': matchHead,
  'spine-burs': (pen) => [stalk(pen, 84), ...burBall(pen, [104, 108], 20), ...burBall(pen, [66, 60], 28, 18)],
  'silver-center': silverCenter,
  'torpedo-tip': torpedo,
  'hair-line-on-stem': hairLine,
  'fruit-row-under-branch': fruitRow,
  'black-smut-head': smut,
  'upright-pods': pods,
  'sticky-jointed-pods': jointedPods,
  'puffball-seeds': puffball,
  'hidden-flowers': silkyThreads,
  'single-curved-seedhead': curvedHead,
  'sunken-seeds': reuse(grassHeads, 'spike-thick'),
  'ligule-missing': (pen: Pen) => [...sideJunction(pen), ...crossOut(pen, [60, 62], 18, 'mid')],
  'sheath-peels-like-onion': peeling,
  'none-of-these': none,
}
