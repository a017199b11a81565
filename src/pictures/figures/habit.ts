import { type Point, placesOn, points, spline, toward } from './geometry.ts'
import { bent, blade, fineRoots, ground, leafOutline, tuft } from './parts.ts'
import type { FigureSet } from './pen.ts'

const SOIL = 104

/** How one plant takes more ground. Side views with the soil line, or seen from above. */
export const habit: FigureSet = {
  bunch: (pen) => [
    ...ground(pen, 124),
    ...[-140, -40, -125, -55, -111, -69, -98, -82].map((degrees) => {
      return blade(
        pen,
        bent([80 + (degrees + 90) * 0.4, 124], degrees * 0.6 - 36, 88, (degrees + 90) * 0.7),
        9,
      )
    }),
    ...fineRoots(pen, [80, 124], 28, 5),
  ],
  stolons: (pen) => [
    ...ground(pen, SOIL),
    pen.stroke(spline(points(26, SOIL, 38, 74, 56, 64, 74, 76, 84, SOIL)), 'bold'),
    pen.stroke(spline(points(84, SOIL, 94, 78, 110, 68, 126, 78, 136, SOIL)), 'bold'),
    ...tuft(pen, [22, SOIL], 84, 3, 9, 10),
    ...fineRoots(pen, [22, SOIL], 34, 3),
    ...tuft(pen, [84, SOIL], 50, 3, 7, 16),
    ...fineRoots(pen, [84, SOIL], 24, 3),
    ...tuft(pen, [138, SOIL], 36, 3, 7, 16),
    ...fineRoots(pen, [138, SOIL], 24, 3),
  ],
  rhizomes: (pen) => [
    ...ground(pen, 84),
    pen.stroke(spline(points(30, 84, 40, 114, 70, 122, 112, 122, 134, 110, 138, 84)), 'bold'),
    pen.stroke(points(88, 122, 88, 84), 'bold'),
    ...tuft(pen, [30, 84], 72, 3, 9, 14),
    ...tuft(pen, [88, 84], 50, 3, 7, 16),
    ...tuft(pen, [138, 84], 36, 3, 6, 16),
    ...fineRoots(pen, [66, 122], 28, 3),
    ...fineRoots(pen, [112, 122], 28, 3),
  ],
  'rhizomes-short': (pen) => [
    ...ground(pen, 84),
    ...tuft(pen, [58, 84], 70, 3, 9, 16),
    ...tuft(pen, [98, 84], 60, 3, 9, 16),
    ...[46, 62, 79, 96, 112].map((x, n) => pen.ring([x, 100 + (n % 2) * 6], 12, 'shade', 'mid')),
    ...fineRoots(pen, [62, 116], 30, 3),
    ...fineRoots(pen, [96, 118], 30, 3),
  ],
  'prostrate-stems': (pen) => [
    ...[0, 45, 90, 135, 180, 225, 270, 315].flatMap((degrees, n) => {
      const line = spline([[80, 80], toward([80, 80], degrees + 8, 40), toward([80, 80], degrees, 72)])
      const leaves = placesOn(line, 3, 0.42, 0.95).flatMap(({ point, degrees: way }) =>
        [-1, 1].map((side) =>
          pen.shape(leafOutline([point, toward(point, way + side * 55, 15)], 8), 'shade', 'hair'),
        ),
      )
      return n < 8 ? [pen.stroke(line, 'mid'), ...leaves] : []
    }),
    pen.ring([80, 80], 7, 'ink', 'mid'),
  ],
  erect: (pen) => {
    const leaf = (y: number, right: boolean) =>
      blade(pen, bent([80, y], right ? -48 : -132, 44, right ? 10 : -10), 11)
    return [
      ...ground(pen, 140),
      ...[112, 84, 56, 30].map((y, n) => leaf(y, n % 2 === 0)),
      pen.stroke(points(80, 140, 80, 8), 'bold'),
    ]
  },
  mat: (pen) => [
    ...ground(pen, 116),
    ...Array.from({ length: 22 }, (_, n) =>
      blade(pen, bent([10 + n * 6.7, 116], -90 + ((n * 37) % 50) - 25, 34, 12), 7, 'shade', 'thin'),
    ),
  ],
  rosette: (pen) => [
    ...Array.from({ length: 9 }, (_, n) => {
      const way: Point = toward([80, 80], n * 40 - 90, 72)
      return [
        pen.shape(leafOutline([[80, 80], way], 30), 'shade', 'mid'),
        pen.stroke([[80, 80], way], 'hair'),
      ]
    }).flat(),
    pen.ring([80, 80], 8, 'paper', 'mid'),
  ],
}
