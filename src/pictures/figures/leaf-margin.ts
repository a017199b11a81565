import type { SvgNode } from '../svg.ts'
import { arc, type Line, type Point, placesOn, points, spline, toward } from './geometry.ts'
import { bothSides } from './leaf-outlines.ts'
import { cutLeaf, roundLobedLeaf } from './lobes.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

const side = spline(points(80, 8, 108, 34, 124, 72, 114, 108, 80, 132))

function leaf(outline: Line): Figure {
  return (pen) => [
    pen.stroke(points(80, 128, 80, 156), 'bold'),
    pen.shape(outline, 'shade', 'bold'),
    pen.stroke(points(80, 30, 80, 130), 'hair'),
  ]
}

/** Saw teeth that point up to the tip, between two shares of the edge. */
function teeth(from: number, to: number, count: number): Line {
  const places = placesOn(side, count, from, to)
  const saw = places.flatMap((place, at): Point[] => {
    const next = places[at + 1]
    return next === undefined ? [place.point] : [place.point, toward(place.point, place.degrees - 62, 13)]
  })
  return [
    ...side.filter((_, at) => at / side.length < from - 0.02),
    ...saw,
    ...side.filter((_, at) => at / side.length > to + 0.02),
  ]
}

function scallops(count: number): Line {
  const places = placesOn(side, count + 1, 0.02, 0.95)
  return places.slice(0, -1).flatMap((place, at) => {
    const end = places[at + 1]?.point ?? place.point
    const center: Point = [(place.point[0] + end[0]) / 2, (place.point[1] + end[1]) / 2]
    const radius = Math.hypot(end[0] - place.point[0], end[1] - place.point[1]) / 2
    const start = (Math.atan2(place.point[1] - center[1], place.point[0] - center[0]) * 180) / Math.PI
    return arc(center, radius, radius, start, start + 180)
  })
}

function fern(pen: Pen): SvgNode[] {
  const branch = (from: Point, degrees: number, length: number): SvgNode[] => {
    const line: Line = [from, toward(from, degrees, length)]
    return [
      pen.stroke(line, 'mid'),
      pen.hairs(line, {
        count: 4,
        length: length * 0.32,
        side: 0,
        lean: 35,
        from: 0.35,
        to: 0.95,
        weight: 'thin',
      }),
    ]
  }
  return [
    pen.stroke(points(80, 156, 80, 8), 'mid'),
    ...[124, 98, 72, 46].flatMap((y, n) => [
      ...branch([80, y], -145, 60 - n * 8),
      ...branch([80, y], -35, 60 - n * 8),
    ]),
    pen.hairs(points(80, 30, 80, 8), { count: 3, length: 14, side: 0, lean: 40, weight: 'thin' }),
  ]
}

/** The edge of the leaf. */
export const leafMargin: FigureSet = {
  smooth: leaf(bothSides(side)),
  toothed: leaf(bothSides(teeth(0.04, 0.94, 12))),
  'tip-teeth': leaf(bothSides([[80, 8], ...teeth(0.06, 0.34, 5)])),
  scalloped: leaf(bothSides(scallops(7))),
  'lobed-back': (pen) => [
    pen.shape(cutLeaf(4, 40, 22), 'shade', 'bold'),
    pen.stroke(points(80, 156, 80, 20), 'thin'),
  ],
  'lobed-blunt': (pen) => [
    pen.shape(roundLobedLeaf(4, 40), 'shade', 'bold'),
    pen.stroke(points(80, 156, 80, 24), 'thin'),
  ],
  'finely-cut': fern,
}
