import type { SvgNode } from '../svg.ts'
import { points } from './geometry.ts'
import { bent, blade, fineRoots, ground } from './parts.ts'
import type { FigureSet, Pen } from './pen.ts'

/** A thick runner across the picture with one joint in its middle. */
function runnerJoint(pen: Pen): SvgNode[] {
  return [
    blade(pen, bent([86, 66], -70, 60, 40), 16, 'paper', 'thin'),
    pen.shape(points(4, 70, 72, 66, 72, 102, 4, 98), 'shade', 'mid'),
    pen.shape(points(156, 70, 90, 66, 90, 102, 156, 98), 'shade', 'mid'),
    pen.shape(points(70, 60, 92, 60, 92, 108, 70, 108), 'paper', 'bold'),
  ]
}

export const nodeHairs: FigureSet = {
  yes: (pen) => [
    ...runnerJoint(pen),
    pen.hairs(points(64, 60, 98, 60), { count: 8, length: 28, side: -1, weight: 'thin' }),
    pen.hairs(points(64, 108, 98, 108), { count: 8, length: 28, side: 1, weight: 'thin' }),
  ],
  no: (pen) => runnerJoint(pen),
}

function lyingStem(pen: Pen): SvgNode[] {
  return [
    ...ground(pen, 96),
    ...[34, 80, 126].flatMap((x) => [
      blade(pen, bent([x, 88], -118, 48, -14), 12, 'shade', 'thin'),
      blade(pen, bent([x, 88], -58, 48, 14), 12, 'shade', 'thin'),
    ]),
    pen.stroke(points(4, 88, 156, 88), 'heavy'),
    ...[34, 80, 126].map((x) => pen.ring([x, 88], 8, 'paper', 'mid')),
  ]
}

/** A stem that lies on the soil, with and without roots under its joints. */
export const creeping: FigureSet = {
  yes: (pen) => [...lyingStem(pen), ...[34, 80, 126].flatMap((x) => fineRoots(pen, [x, 96], 46, 5, 'mid'))],
  no: (pen) => lyingStem(pen),
}
