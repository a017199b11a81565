import type { SvgNode } from '../svg.ts'
import { type Line, type Point, placesOn, points, ribbon, spline, toward } from './geometry.ts'
import { branch, grain, seededBranch, stalk } from './head-parts.ts'
import { bent, blade, bladeOutline } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

const spikeFlat: Figure = (pen) => [
  ...[0, 1, 2, 3, 4, 5].flatMap((n) => {
    const y = 130 - n * 18
    return [grain(pen, [80, y], -142, 38, 'mid'), grain(pen, [80, y - 9], -38, 38, 'mid')]
  }),
  stalk(pen, 6),
]

const spikeThick: Figure = (pen) => {
  const bar: Line = spline(points(64, 140, 62, 80, 66, 24, 78, 8, 90, 24, 94, 80, 90, 140))
  return [
    stalk(pen, 138, 158, 'heavy'),
    pen.shape(bar, 'shade', 'bold'),
    ...[0, 1, 2, 3, 4].map((n) => {
      const y = 124 - n * 23
      return pen.shape(spline(points(92, y - 12, 78, y - 4, 78, y + 8, 92, y + 4), true), 'paper', 'mid')
    }),
  ]
}

const racemeSingle: Figure = (pen) => {
  const line = spline(points(72, 158, 76, 100, 84, 54, 100, 10))
  return [
    ...placesOn(line, 11, 0.34, 0.97).flatMap(({ point, degrees }) => [
      grain(pen, point, degrees + 13, 15, 'hair'),
      grain(pen, point, degrees - 13, 15, 'hair'),
    ]),
    pen.stroke(line, 'mid'),
  ]
}

const pairY: Figure = (pen) => [
  stalk(pen, 88),
  ...seededBranch(pen, branch([80, 88], -128, 88, -16), 1, 10),
  ...seededBranch(pen, branch([80, 88], -52, 88, 16), -1, 10),
]

const pairPlus: Figure = (pen) => [
  stalk(pen, 70),
  ...seededBranch(pen, branch([80, 70], -122, 70, -16), 1, 8),
  ...seededBranch(pen, branch([80, 70], -58, 70, 16), -1, 8),
  ...seededBranch(pen, branch([80, 104], -20, 66, 20), -1, 8),
]

const fingers: Figure = (pen) => [
  stalk(pen, 92),
  ...[-166, -128, -90, -52, -14].flatMap((degrees) =>
    seededBranch(pen, branch([80, 92], degrees, 74, (degrees + 90) / 4), degrees < -90 ? 1 : -1, 8),
  ),
]

const ladder: Figure = (pen) => [
  stalk(pen, 14),
  ...[118, 90, 62, 34].flatMap((y, n) => {
    const right = n % 2 === 0
    return seededBranch(
      pen,
      branch([80, y], right ? -18 : -162, 62 - n * 5, right ? 24 : -24),
      right ? -1 : 1,
      7,
    )
  }),
]

const panicleOpen: Figure = (pen) => {
  const twig = (from: Point, degrees: number, length: number): SvgNode[] => {
    const line = branch(from, degrees, length, 0)
    return [
      pen.stroke(line, 'thin'),
      ...placesOn(line, 3, 0.5, 0.86).flatMap(({ point, degrees: way }) =>
        [-38, 38].map((turn) => pen.stroke([point, toward(point, way + turn, length * 0.24)], 'hair')),
      ),
      pen.dots(
        placesOn(line, 3, 0.5, 0.86).flatMap(({ point, degrees: way }) =>
          [-38, 38].map((turn) => toward(point, way + turn, length * 0.26)),
        ),
        2.8,
      ),
      pen.dots([toward(from, degrees, length)], 2.8),
    ]
  }
  return [
    stalk(pen, 10, 158, 'mid'),
    ...[128, 98, 68].flatMap((y, n) => [
      ...twig([80, y], -150, 74 - n * 16),
      ...twig([80, y], -30, 74 - n * 16),
    ]),
    ...twig([80, 48], -90, 36),
  ]
}

const panicleNarrow: Figure = (pen) => [
  stalk(pen, 8, 158, 'mid'),
  ...Array.from({ length: 11 }, (_, n) => {
    const y = 128 - n * 11
    const length = 28 - Math.abs(n - 4) * 1.6
    return [
      pen.stroke([[80, y], toward([80, y], -112, length)], 'thin'),
      pen.stroke([[80, y], toward([80, y], -68, length)], 'thin'),
    ]
  }).flat(),
  pen.dots(
    Array.from({ length: 11 }, (_, n) => {
      const [y, length] = [128 - n * 11, 28 - Math.abs(n - 4) * 1.6]
      return [toward([80, y], -112, length), toward([80, y], -68, length)]
    }).flat(),
    2.6,
  ),
]

/** A dense one-sided clump of short pointed packets. */
function clump(pen: Pen, at: Point, size: number): SvgNode[] {
  return [
    pen.shape(
      spline(
        [
          toward(at, -90, size),
          toward(at, -20, size * 1.25),
          toward(at, 40, size),
          toward(at, 110, size * 0.7),
        ],
        true,
      ),
      'shade',
      'no-line',
    ),
    ...[-80, -55, -30, -5, 20, 45].flatMap((degrees) => [
      grain(pen, toward(at, degrees, size * 0.15), degrees, size * 1.3, 'thin'),
    ]),
  ]
}

const clustered: Figure = (pen) => [
  stalk(pen, 34),
  pen.stroke(points(80, 112, 118, 84), 'bold'),
  pen.stroke(points(80, 74, 104, 56), 'mid'),
  ...clump(pen, [118, 82], 25),
  ...clump(pen, [100, 54], 19),
  ...clump(pen, [80, 30], 20),
]

const foxtail: Figure = (pen) => {
  const line = spline(points(80, 158, 80, 120, 82, 70, 94, 34))
  const body = placesOn(line, 12, 0.26, 1).map((place) => place.point)
  return [
    pen.stroke(line, 'bold'),
    pen.hairs(body, { count: 22, length: 32, side: 0, lean: 38, weight: 'hair' }),
    pen.shape(
      ribbon(body, (share) => 24 * Math.sqrt(Math.sin(Math.PI * (0.08 + 0.86 * share)))),
      'shade',
      'mid',
    ),
    pen.dots(
      body.flatMap(([x, y], n) => (n > 0 && n < 11 ? [[x - 5, y] as const, [x + 5, y + 4] as const] : [])),
      2.2,
    ),
  ]
}

/** A ball set with long and short needles. */
export function burBall(pen: Pen, at: Point, radius: number, spines = 14): SvgNode[] {
  const needle = (n: number): Line => {
    const degrees = (360 / spines) * n
    return [
      toward(at, degrees - 9, radius),
      toward(at, degrees, radius * (n % 2 ? 1.6 : 2.05)),
      toward(at, degrees + 9, radius),
    ]
  }
  return [
    ...Array.from({ length: spines }, (_, n) => pen.shape(needle(n), 'ink', 'no-line')),
    pen.ring(at, radius, 'shade', 'mid'),
    pen.dots(
      [0, 60, 120, 180, 240, 300].map((degrees) => toward(at, degrees, radius * 0.5)),
      radius / 11,
    ),
  ]
}

const bur: Figure = (pen) => [
  stalk(pen, 30),
  ...burBall(pen, [80, 30], 13),
  ...burBall(pen, [54, 68], 13),
  ...burBall(pen, [106, 86], 13),
  ...burBall(pen, [58, 118], 13),
]

const flags: Figure = (pen) => {
  const flag = (y: number): SvgNode[] => {
    const line: Line = points(80, y, 138, y - 26)
    return [
      ...placesOn(line, 7, 0.16, 0.96).map(({ point, degrees }) =>
        grain(pen, point, degrees + 62, 24, 'thin'),
      ),
      pen.stroke(line, 'bold'),
    ]
  }
  return [stalk(pen, 6), ...flag(46), ...flag(98)]
}

const hidden: Figure = (pen) => [
  blade(pen, bent([72, 92], -140, 74, -20), 13),
  blade(pen, bent([88, 92], -40, 74, 20), 13),
  ...[-110, -98, -86, -74].flatMap((degrees, n) => {
    const line = bent([80, 80], degrees, 66, degrees < -90 ? -16 : 16)
    return [pen.stroke(line, 'thin'), pen.dots([line.at(-1) ?? [80, 20]], n % 2 ? 4 : 3)]
  }),
  pen.shape(bladeOutline(points(80, 158, 80, 66), 46), 'shade', 'bold'),
  pen.stroke(spline(points(66, 158, 72, 110, 80, 76)), 'thin'),
]

/** A tuft of fine fluff around the end of a short branch. */
function fluff(pen: Pen, at: Point, size: number): SvgNode[] {
  return Array.from({ length: 22 }, (_, n) => {
    const degrees = n * (360 / 22)
    const far = size * (n % 2 ? 0.8 : 1)
    return pen.stroke(spline([at, toward(at, degrees, far * 0.6), toward(at, degrees + 24, far)]), 'hair')
  })
}

const feathery: Figure = (pen) => [
  stalk(pen, 26, 158, 'mid'),
  ...[128, 102, 76, 50].flatMap((y, n) => {
    const end = toward([80, y], n % 2 === 0 ? -35 : -145, 34)
    return [
      pen.stroke([[80, y], end], 'mid'),
      ...fluff(pen, end, 27),
      grain(pen, toward(end, 90, 7), -90, 15),
    ]
  }),
]

/** Heads of grasses. */
export const grassHeads: FigureSet = {
  'spike-flat': spikeFlat,
  'spike-thick': spikeThick,
  'raceme-single': racemeSingle,
  'pair-Y': pairY,
  'pair-plus': pairPlus,
  fingers,
  ladder,
  'panicle-open': panicleOpen,
  'panicle-narrow': panicleNarrow,
  clustered,
  foxtail,
  bur,
  flags,
  hidden,
  feathery,
}
