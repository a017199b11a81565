import { type Line, type Point, placeOn, points, ribbon, spline, toward } from './geometry.ts'
import { bent, blade, flower, leafOutline } from './parts.ts'
import type { Figure, FigureSet } from './pen.ts'

const grass: Figure = (pen) => {
  const leaf = (y: number, right: boolean) =>
    blade(pen, bent([80, y], right ? -50 : -130, 60, right ? 42 : -42), 13)
  return [
    leaf(98, false),
    leaf(70, true),
    leaf(42, false),
    pen.stroke(points(80, 156, 80, 12), 'heavy'),
    ...[126, 98, 70, 42].map((y) =>
      pen.shape(points(71, y - 6, 89, y - 6, 92, y, 89, y + 6, 71, y + 6, 68, y), 'paper', 'mid'),
    ),
  ]
}

const sedge: Figure = (pen) => [
  ...[-90, 30, 150].map((degrees) => blade(pen, bent([66, 52], degrees, 46, degrees === 30 ? 20 : 0), 13)),
  pen.shape(points(54, 56, 78, 56, 78, 132, 54, 132), 'paper', 'no-line'),
  pen.stroke(points(54, 50, 54, 132), 'mid'),
  pen.stroke(points(66, 50, 66, 138), 'thin'),
  pen.stroke(points(78, 50, 78, 132), 'mid'),
  pen.shape(points(48, 132, 84, 132, 66, 156), 'shade', 'mid'),
  pen.shape(points(128, 96, 154, 142, 102, 142), 'shade', 'bold'),
]

const rush: Figure = (pen) => {
  const needle = (x: number, top: number, lean: number) =>
    pen.stroke(spline(points(x, 156, x + lean / 2, (top + 156) / 2, x + lean, top)), 'mid')
  const pods: Line = points(98, 44, 108, 40, 103, 52, 113, 50, 108, 60, 117, 38, 119, 58, 99, 34)
  return [
    needle(62, 34, -14),
    needle(74, 22, -4),
    needle(98, 50, 26),
    pen.stroke(spline(points(86, 156, 88, 90, 92, 6)), 'bold'),
    pen.stroke(points(91, 54, 104, 47), 'thin'),
    pen.dots(pods, 5),
  ]
}

const otherMonocot: Figure = (pen) => {
  const strap = spline(points(112, 154, 110, 110, 118, 70))
  return [
    ...[-102, -88, -74].map((degrees) => blade(pen, bent([42, 104], degrees, 96, (degrees + 88) * 1.6), 9)),
    pen.shape(spline(points(42, 100, 62, 116, 64, 136, 42, 148, 20, 136, 22, 116), true), 'shade', 'mid'),
    pen.stroke(spline(points(42, 104, 32, 124, 42, 146)), 'thin'),
    pen.stroke(spline(points(42, 104, 52, 124, 42, 146)), 'thin'),
    pen.hairs(points(34, 148, 50, 148), { count: 4, length: 8, side: 1, weight: 'thin' }),
    pen.shape(
      ribbon(strap, (share) => 24 - 4 * share),
      'shade',
      'mid',
    ),
    ...flower(pen, [118, 44], 34, 3, 'paper'),
  ]
}

const broadleaf: Figure = (pen) => {
  const middle: Line = points(80, 120, 80, 10)
  const vein = (share: number, side: 1 | -1): Line => {
    const from = placeOn(middle, share).point
    const length = 38 * Math.sin(Math.PI * (0.12 + share * 0.88)) ** 0.8
    return [from, toward(from, -90 + side * 52, length)]
  }
  const net = (share: number, side: 1 | -1): Line[] => {
    const [from, to] = [placeOn(vein(share, side), 0.5).point, placeOn(vein(share + 0.17, side), 0.35).point]
    const end: Point = toward(placeOn(vein(share, side), 0.55).point, -90 - side * 20, 14)
    return [
      [from, to],
      [placeOn(vein(share, side), 0.75).point, end],
    ]
  }
  return [
    pen.stroke(points(80, 120, 80, 156), 'bold'),
    pen.shape(leafOutline(middle, 96), 'shade', 'bold'),
    pen.stroke(middle, 'mid'),
    ...([1, -1] as const).flatMap((side) =>
      [0.1, 0.27, 0.44, 0.61].flatMap((share) => [
        pen.stroke(vein(share, side), 'thin'),
        ...net(share, side).map((line) => pen.stroke(line, 'hair')),
      ]),
    ),
  ]
}

/** The five plant groups, each by what anyone can feel or see. */
export const plantGroup: FigureSet = { grass, sedge, rush, 'other-monocot': otherMonocot, broadleaf }
