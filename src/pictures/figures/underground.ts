import type { SvgNode } from '../svg.ts'
import { type Line, placesOn, points, ribbon, spline, toward } from './geometry.ts'
import type { Hue } from './hues.ts'
import { fineRoots, ground, tuft } from './parts.ts'
import type { FigureSet, Pen } from './pen.ts'

const SOIL = 46

function plant(pen: Pen, x = 80): SvgNode[] {
  return [...ground(pen, SOIL), ...tuft(pen, [x, SOIL], 40, 3, 8)]
}

function nut(pen: Pen, x: number, y: number): SvgNode[] {
  return [
    pen.ring([x, y], 14, 'shade', 'bold'),
    pen.stroke(points(x - 9, y - 3, x + 9, y - 3), 'hair'),
    pen.stroke(points(x - 9, y + 4, x + 9, y + 4), 'hair'),
  ]
}

function runner(pen: Pen, hue: Hue): SvgNode[] {
  const line = spline(points(34, SOIL, 40, 82, 66, 96, 104, 98, 146, 104))
  return [
    pen.shape(
      ribbon(line, (share) => 13 * (1 - 0.75 * share ** 6)),
      hue,
      'mid',
    ),
    ...placesOn(line, 7, 0.22, 0.9).flatMap(({ point, degrees }) => [
      pen
        .over(hue)
        .stroke(
          [toward(point, degrees - 90, 6), toward(point, degrees, 6), toward(point, degrees + 90, 6)],
          'mid',
        ),
    ]),
    ...placesOn(line, 3, 0.4, 0.85).flatMap(({ point }) => fineRoots(pen, [point[0], point[1] + 6], 26, 3)),
  ]
}

function knuckles(pen: Pen): SvgNode[] {
  return [
    ...[48, 70, 92, 113].map((x, n) => pen.ring([x, 72 + (n % 2) * 10], 16, 'shade', 'mid')),
    ...fineRoots(pen, [60, 96], 34, 3),
    ...fineRoots(pen, [102, 98], 34, 3),
  ]
}

const carrot: Line = spline(points(62, SOIL, 64, 70, 72, 110, 80, 154, 88, 110, 96, 70, 98, SOIL))

/** What comes up with the spade. */
export const underground: FigureSet = {
  'tubers-single': (pen) => [
    ...plant(pen, 56),
    ...fineRoots(pen, [56, SOIL], 26, 3),
    pen.stroke(spline(points(56, SOIL, 64, 76, 88, 96, 116, 112)), 'mid'),
    ...nut(pen, 124, 120),
  ],
  'tubers-chain': (pen) => [
    ...plant(pen, 34),
    pen.stroke(spline(points(34, SOIL, 40, 84, 64, 106, 100, 114, 150, 122)), 'mid'),
    ...nut(pen, 44, 88),
    ...nut(pen, 80, 110),
    ...nut(pen, 116, 117),
    pen.ring([148, 122], 8, 'shade', 'mid'),
  ],
  'tubers-segmented': (pen) => [
    ...plant(pen),
    pen.stroke(points(80, SOIL, 80, 66), 'mid'),
    ...[9, 12, 14, 14, 12, 9, 6].map((half, n) => {
      const y = 70 + n * 12
      return pen.shape(
        spline(
          points(
            80 - half,
            y - 5,
            80 - half - 4,
            y,
            80 - half,
            y + 5,
            80 + half,
            y + 5,
            80 + half + 4,
            y,
            80 + half,
            y - 5,
          ),
          true,
        ),
        'white',
        'mid',
      )
    }),
  ],
  bulbs: (pen) => [
    ...plant(pen),
    pen.shape(
      spline(points(80, 48, 94, 70, 116, 92, 110, 120, 80, 130, 50, 120, 44, 92, 66, 70), true),
      'shade',
      'bold',
    ),
    pen.stroke(spline(points(80, 54, 62, 92, 80, 128)), 'thin'),
    pen.stroke(spline(points(80, 54, 98, 92, 80, 128)), 'thin'),
    ...fineRoots(pen, [80, 130], 24, 5),
  ],
  taproot: (pen) => [
    ...plant(pen),
    pen.shape(carrot, 'shade', 'bold'),
    ...[70, 92, 114].map((y, n) =>
      pen.stroke(points(80 + (n % 2 ? 2 : -6), y, 80 + (n % 2 ? 10 : 2), y), 'thin'),
    ),
    pen.stroke(points(70, 96, 54, 108), 'thin'),
    pen.stroke(points(90, 88, 108, 102), 'thin'),
  ],
  fibrous: (pen) => [...plant(pen), ...fineRoots(pen, [80, SOIL], 108, 11, 'mid')],
  rhizomes: (pen) => [...plant(pen, 34), ...runner(pen, 'white')],
  'rhizomes-short': (pen) => [...plant(pen, 64), ...tuft(pen, [98, SOIL], 32, 3, 8), ...knuckles(pen)],
  'rhizomes-purple': (pen) => [...plant(pen, 34), ...runner(pen, 'purple')],
  corm: (pen) => [
    ...ground(pen, 96),
    ...tuft(pen, [80, 62], 56, 3, 11),
    pen.shape(
      spline(points(74, 62, 70, 80, 54, 92, 58, 112, 80, 116, 102, 112, 106, 92, 90, 80, 86, 62), true),
      'shade',
      'bold',
    ),
    ...fineRoots(pen, [80, 116], 36, 7),
  ],
}
