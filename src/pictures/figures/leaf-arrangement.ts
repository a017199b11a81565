import { type Point, points, spline, toward } from './geometry.ts'
import { bent, blade, ground, leafOutline } from './parts.ts'
import type { FigureSet, Pen } from './pen.ts'

function leaf(pen: Pen, from: Point, degrees: number, length: number, width = 0.42) {
  const stalk = toward(from, degrees, length * 0.16)
  return [
    pen.stroke([from, stalk], 'mid'),
    pen.shape(
      leafOutline(spline([stalk, toward(stalk, degrees, length * 0.84)]), length * width),
      'shade',
      'mid',
    ),
  ]
}

const stem = (pen: Pen) => pen.stroke(points(80, 156, 80, 8), 'bold')

/** How the leaves sit: side views, or seen from above where that tells more. */
export const leafArrangement: FigureSet = {
  '2-ranked': (pen) => [
    ...[136, 112, 88, 64].flatMap((y, n) => [
      blade(pen, bent([80, y], -128, 60 - n * 4, -16), 11),
      blade(pen, bent([80, y - 15], -52, 60 - n * 4, 16), 11),
    ]),
    stem(pen),
  ],
  '3-ranked': (pen) => [
    ...[-90, 30, 150].flatMap((degrees) => [
      blade(pen, [[80, 84], toward([80, 84], degrees, 72)], 26),
      blade(pen, [[80, 84], toward([80, 84], degrees, 40)], 18),
    ]),
    pen.shape(
      [-30, 90, 210].map((degrees) => toward([80, 84], degrees, 19)),
      'paper',
      'bold',
    ),
  ],
  opposite: (pen) => [
    stem(pen),
    ...[124, 78, 34].flatMap((y) => [...leaf(pen, [80, y], -160, 66), ...leaf(pen, [80, y], -20, 66)]),
  ],
  alternate: (pen) => [
    pen.stroke(points(80, 156, 74, 128, 86, 98, 74, 68, 86, 38, 80, 10), 'bold'),
    ...leaf(pen, [74, 128], -155, 66),
    ...leaf(pen, [86, 98], -25, 66),
    ...leaf(pen, [74, 68], -155, 66),
    ...leaf(pen, [86, 38], -25, 66),
  ],
  whorled: (pen) => [
    stem(pen),
    ...[112, 52].flatMap((y) =>
      [172, 205, 240, 300, 335, 8].flatMap((degrees) => leaf(pen, [80, y], degrees, 58, 0.3)),
    ),
  ],
  rosette: (pen) => [
    ...Array.from({ length: 10 }, (_, n) => leaf(pen, toward([80, 80], n * 36, 4), n * 36, 70, 0.36)).flat(),
    pen.ring([80, 80], 9, 'paper', 'mid'),
  ],
  tuft: (pen) => [
    ...ground(pen, 138),
    ...[-128, -52, -116, -64, -103, -77, -90].map((degrees) => {
      return blade(pen, bent([80 + (degrees + 90) * 0.2, 138], degrees, 104, (degrees + 90) * 0.3), 10)
    }),
  ],
}
