import { points, spline, toward } from './geometry.ts'
import { arrow, fineRoots, ground, leafOutline, snowflake, sprout, sun, tuft, withered } from './parts.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

/** Alive under the left sign of the season, dead under the right one. */
function seasonPair(left: 'sun' | 'snow'): Figure {
  const sign = (pen: Pen, x: number, which: 'sun' | 'snow') =>
    which === 'sun' ? sun(pen, [x, 26], 11) : snowflake(pen, [x, 25], 21)
  return (pen) => [
    ...sign(pen, 40, left),
    ...sign(pen, 122, left === 'sun' ? 'snow' : 'sun'),
    pen.stroke(points(80, 8, 80, 150), 'hair', '4 7'),
    ...ground(pen, 132),
    ...sprout(pen, [40, 132], 54),
    ...withered(pen, [116, 132], 56),
  ]
}

function leafRing(pen: Pen, x: number, y: number, size: number) {
  return [-170, -140, -40, -10].map((degrees) => {
    return pen.shape(
      leafOutline(spline([[x, y], toward([x, y], degrees, size)]), size * 0.36),
      'shade',
      'thin',
    )
  })
}

/** How long the plant lives, as a small story from left to right. */
export const lifecycle: FigureSet = {
  'summer-annual': seasonPair('sun'),
  'winter-annual': seasonPair('snow'),
  annual: (pen) => [
    ...ground(pen, 112),
    ...sprout(pen, [34, 112], 66),
    ...fineRoots(pen, [34, 112], 34, 3, 'mid'),
    ...arrow(pen, points(70, 60, 98, 60)),
    ...withered(pen, [120, 112], 58),
    ...fineRoots(pen, [120, 112], 22, 3, 'hair'),
  ],
  biennial: (pen) => [
    ...ground(pen, 132),
    ...leafRing(pen, 36, 130, 32),
    ...arrow(pen, points(66, 84, 92, 84)),
    ...leafRing(pen, 124, 130, 26),
    pen.stroke(points(124, 132, 124, 40), 'mid'),
    ...[58, 82, 104].flatMap((y) => [
      pen.stroke(points(124, y, 140, y - 14), 'mid'),
      pen.stroke(points(124, y, 108, y - 14), 'mid'),
    ]),
    pen.ring([124, 26], 13, 'paper', 'bold'),
    pen.dots(points(140, 42, 108, 42, 140, 66, 108, 66), 5),
  ],
  perennial: (pen) => [
    ...ground(pen, 96, 6, 154),
    pen.shape(spline(points(66, 96, 72, 126, 80, 152, 88, 126, 94, 96)), 'shade', 'bold'),
    ...tuft(pen, [80, 96], 46, 5, 9),
    ...arrow(pen, spline(points(26, 108, 12, 70, 26, 26, 80, 8, 134, 26, 148, 66, 136, 88)), 'bold', 18),
  ],
}
