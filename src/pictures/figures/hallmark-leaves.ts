import type { SvgNode } from '../svg.ts'
import {
  arc,
  type Line,
  mirrored,
  oval,
  type Point,
  placesOn,
  points,
  ribbon,
  spline,
  toward,
} from './geometry.ts'
import { leafOutlines } from './leaf-outlines.ts'
import { leafType } from './leaf-type.ts'
import { bladeOutline, leafOutline } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

const upright: Line = points(80, 156, 80, 6)

function wideBlade(pen: Pen): SvgNode {
  return pen.shape(bladeOutline(upright, 66), 'shade', 'mid')
}

const whiteMidribSnaps: Figure = (pen) => {
  const half = (shift: number, degrees: number): SvgNode[] => {
    const from: Point = [80 + shift, 78]
    const line = [from, toward(from, degrees, 70)]
    return [
      pen.shape(
        ribbon(line, () => 56),
        'shade',
        'mid',
      ),
      pen.shape(
        ribbon(line, () => 18),
        'white',
        'thin',
      ),
    ]
  }
  const burst = [-120, -90, -60].map((degrees) =>
    pen.stroke([toward([80, 52], degrees, 10), toward([80, 52], degrees, 34)], 'mid'),
  )
  return [...half(-7, 140), ...half(7, 40), ...burst]
}

function stalkedLeaf(pen: Pen, outline: Line): SvgNode[] {
  return [pen.stroke(points(80, 126, 80, 156), 'bold'), pen.shape(outline, 'shade', 'mid')]
}

const leaflet = (from: Point, degrees: number): Line => leafOutline([from, toward(from, degrees, 56)], 44)

const crescent: Line = [...arc([80, 66], 34, 26, 20, 160), ...arc([80, 54], 36, 24, 160, 20)]

const herringbone: Figure = (pen) => [
  ...stalkedLeaf(pen, leafOutlines.egg),
  pen.stroke(points(80, 16, 80, 126), 'mid'),
  ...[112, 98, 84, 70, 56, 42].flatMap((y, n) => {
    const length = [24, 36, 44, 42, 34, 22][n] ?? 20
    return [-40, -140].map((degrees) => pen.stroke([[80, y], toward([80, y], degrees, length)], 'mid'))
  }),
]

const crease: Figure = (pen) => [
  pen.shape(
    [
      [50, 156],
      [50, 70],
      ...spline(points(50, 70, 52, 58, 62, 48)),
      ...spline(points(62, 48, 56, 36, 62, 20, 80, 4)),
      ...spline(points(80, 4, 98, 20, 104, 36, 98, 48)),
      ...spline(points(98, 48, 108, 58, 110, 70)),
      [110, 156],
    ],
    'shade',
    'mid',
  ),
  pen.stroke(points(60, 48, 100, 48), 'bold'),
  pen.stroke(points(80, 156, 80, 18), 'hair'),
]

const silveryStripe: Figure = (pen) => {
  const outline = leafOutline(points(80, 152, 80, 6), 88)
  const stripe = ribbon(
    spline(points(76, 140, 66, 90, 78, 18)),
    (share) => 13 * Math.sin(Math.PI * (0.1 + 0.8 * share)),
  )
  return [pen.shape(outline, 'shade', 'mid'), pen.shape(stripe, 'white', 'thin')]
}

const rightAngle: Figure = (pen) => [
  pen.stroke(points(80, 158, 80, 8), 'heavy'),
  ...[40, 84, 128].flatMap((y) => [
    pen.shape(bladeOutline(points(82, y, 154, y), 14), 'shade', 'mid'),
    pen.shape(bladeOutline(points(78, y, 6, y), 14), 'shade', 'mid'),
  ]),
  pen.stroke(points(88, 30, 98, 30, 98, 40), 'thin'),
]

const wrinkled: Figure = (pen) => [
  wideBlade(pen),
  ...[40, 60, 80, 100, 120, 140].map((y) => {
    const half = y < 50 ? 24 : 31
    return pen.stroke(
      spline(points(80 - half, y, 80 - half / 2, y - 7, 80, y, 80 + half / 2, y + 7, 80 + half, y)),
      'mid',
    )
  }),
]

const middleStalked: Figure = (pen) => [
  pen.stroke(points(80, 112, 80, 158), 'bold'),
  pen.stroke(points(80, 112, 80, 66), 'bold'),
  pen.shape(leaflet([80, 112], 195), 'shade', 'mid'),
  pen.shape(leaflet([80, 112], -15), 'shade', 'mid'),
  pen.shape(leaflet([80, 62], -90), 'shade', 'mid'),
]

const notched: Figure = (pen) => [
  ...Array.from({ length: 5 }, (_, n) => {
    const way = -90 + n * 72
    const at = (turn: number, far: number) => toward([80, 84], way + turn, far)
    const petal = [
      at(0, 10),
      ...spline([at(-20, 40), at(-24, 62), at(-11, 74)]),
      at(0, 40),
      ...spline([at(11, 74), at(24, 62), at(20, 40)]),
    ]
    return pen.shape(petal, 'paper', 'mid')
  }),
  pen.ring([80, 84], 9, 'shade', 'thin'),
]

/** Hallmarks on leaves and petals. */
export const leafHallmarks: FigureSet = {
  'white-midrib-snaps': whiteMidribSnaps,
  'hollow-leaf': leafType['hollow-tube'] ?? (() => []),
  'middle-leaflet-stalked': middleStalked,
  'white-crescent': (pen) => [
    ...stalkedLeaf(pen, leafOutlines.egg),
    pen.stroke(points(80, 18, 80, 126), 'hair'),
    pen.shape(crescent, 'white', 'mid'),
  ],
  'notched-petals': notched,
  'herringbone-veins': herringbone,
  'crease-near-tip': crease,
  'silvery-stripe': silveryStripe,
  'blade-at-right-angle': rightAngle,
  'wrinkled-blade': wrinkled,
  'upper-leaves-ring-stem': (pen) => [
    pen.stroke(points(80, 158, 80, 96), 'heavy'),
    pen.shape(
      spline(
        points(
          80,
          100,
          40,
          92,
          14,
          60,
          34,
          56,
          48,
          66,
          62,
          54,
          80,
          62,
          98,
          54,
          112,
          66,
          126,
          56,
          146,
          60,
          120,
          92,
        ),
        true,
      ),
      'shade',
      'bold',
    ),
    ...placesOn(points(80, 96, 80, 96), 1).flatMap(({ point }) =>
      [-150, -120, -60, -30].map((degrees) => pen.stroke([point, toward(point, degrees, 34)], 'hair')),
    ),
    pen.stroke(points(80, 64, 80, 8), 'heavy'),
  ],
  'purple-top': (pen) => [
    pen.stroke(points(80, 158, 80, 90), 'bold'),
    ...[
      [120, 44, 'shade'],
      [94, 62, 'purple'],
      [66, 50, 'purple'],
      [42, 36, 'purple'],
      [22, 22, 'purple'],
    ].flatMap(([y, reach, fill]) => {
      const [at, far] = [Number(y), Number(reach)]
      const right = spline(
        points(80, at - 10, 80 + far * 0.6, at - 6, 80 + far, at + 18, 80 + far * 0.45, at + 16, 80, at + 4),
      )
      return [right, mirrored(right)].map((leaf) =>
        pen.shape(leaf, fill === 'purple' ? 'purple' : 'shade', 'mid'),
      )
    }),
  ],
  'paired-leaves-at-runner-joint': (pen) => [
    pen.stroke(points(4, 80, 156, 80), 'heavy'),
    ...[46, 114].flatMap((x) => [
      pen.shape(bladeOutline(points(x, 78, x - 8, 10), 24), 'shade', 'mid'),
      pen.shape(bladeOutline(points(x, 82, x - 8, 150), 24), 'shade', 'mid'),
      pen.ring([x, 80], 10, 'paper', 'mid'),
    ]),
  ],
  'bristly-membrane': (pen) => [
    pen.stroke(points(80, 158, 80, 4), 'heavy'),
    pen.shape(leafOutline(points(84, 88, 154, 58), 36), 'shade', 'mid'),
    pen.shape(leafOutline(points(76, 88, 6, 58), 36), 'shade', 'mid'),
    pen.hairs(points(62, 74, 98, 74), { count: 6, length: 34, side: -1, weight: 'thin' }),
    pen.shape(oval([80, 84], 22, 13), 'paper', 'bold'),
  ],
}
