import type { SvgNode } from '../svg.ts'
import { type Line, oval, type Point, placeOn, points, ribbon, spline, toward } from './geometry.ts'
import type { Fill, Pen, Weight } from './pen.ts'

/** A grass blade: full width over most of its length, running out to a point. */
export function bladeOutline(line: Line, width: number): Line {
  return ribbon(line, (share) => width * Math.sqrt(Math.max(0, 1 - share ** 3)))
}

/** A leaf that is widest in its middle. */
export function leafOutline(line: Line, width: number): Line {
  return ribbon(line, (share) => width * Math.sin(Math.PI * Math.min(1, 0.04 + share * 0.96)) ** 0.8)
}

export function blade(
  pen: Pen,
  line: Line,
  width: number,
  fill: Fill = 'shade',
  weight: Weight = 'mid',
): SvgNode {
  return pen.shape(bladeOutline(line, width), fill, weight)
}

/** A line from a point that leans over at its end: a grass leaf, a branch. */
export function bent(from: Point, degrees: number, length: number, droop = 25): Line {
  const middle = toward(from, degrees, length * 0.55)
  return spline([
    from,
    toward(from, degrees, length * 0.28),
    middle,
    toward(middle, degrees + droop, length * 0.45),
  ])
}

/** Leaves that rise from one point and lean outward. */
export function tuft(
  pen: Pen,
  at: Point,
  size: number,
  leaves: number,
  width: number,
  spread = 34,
): SvgNode[] {
  return Array.from({ length: leaves }, (_, n) => {
    const lean = leaves === 1 ? 0 : (n / (leaves - 1)) * 2 - 1
    const length = size * (1 - 0.18 * Math.abs(lean))
    return blade(pen, bent(at, -90 + lean * spread, length, lean * spread), width, 'shade', 'thin')
  })
}

/** The surface of the soil, with a few short strokes below it. */
export function ground(pen: Pen, y: number, from = 6, to = 154): SvgNode[] {
  const strokes = Math.floor((to - from) / 18)
  return [
    pen.stroke(points(from, y, to, y), 'thin'),
    ...Array.from({ length: strokes }, (_, n) => {
      const x = from + 12 + n * 18
      return pen.stroke(points(x, y + 4, x - 5, y + 10), 'hair')
    }),
  ]
}

export function sun(pen: Pen, center: Point, radius: number): SvgNode[] {
  const rays = Array.from({ length: 8 }, (_, n) => {
    return pen.stroke([toward(center, n * 45, radius * 1.4), toward(center, n * 45, radius * 1.95)], 'mid')
  })
  return [pen.ring(center, radius, 'paper', 'mid'), ...rays]
}

export function snowflake(pen: Pen, center: Point, radius: number): SvgNode[] {
  return Array.from({ length: 6 }, (_, n) => {
    const degrees = n * 60 - 90
    const fork = toward(center, degrees, radius * 0.6)
    return [
      pen.stroke([center, toward(center, degrees, radius)], 'mid'),
      pen.stroke(
        [toward(fork, degrees + 45, radius * 0.38), fork, toward(fork, degrees - 45, radius * 0.38)],
        'thin',
      ),
    ]
  }).flat()
}

/** A line with a head at its end. */
export function arrow(pen: Pen, line: Line, weight: Weight = 'mid', head = 11): SvgNode[] {
  const { point, degrees } = placeOn(line, 1)
  return [
    pen.stroke(line, weight),
    pen.stroke([toward(point, degrees + 145, head), point, toward(point, degrees - 145, head)], weight),
  ]
}

/** "Not this": a cross over what is drawn there. */
export function crossOut(pen: Pen, center: Point, radius: number, weight: Weight = 'bold'): SvgNode[] {
  return [
    pen.stroke([toward(center, 45, radius), toward(center, 225, radius)], weight),
    pen.stroke([toward(center, 135, radius), toward(center, 315, radius)], weight),
  ]
}

/** Thin roots that hang from a point. */
export function fineRoots(
  pen: Pen,
  at: Point,
  size: number,
  count: number,
  weight: Weight = 'thin',
): SvgNode[] {
  return Array.from({ length: count }, (_, n) => {
    const lean = count === 1 ? 0 : (n / (count - 1)) * 2 - 1
    const end = toward(at, 90 - lean * 48, size * (1 - 0.15 * Math.abs(lean)))
    return pen.stroke(
      spline([at, [(at[0] + end[0]) / 2 + (n % 2 ? 3 : -3), (at[1] + end[1]) / 2], end]),
      weight,
    )
  })
}

/** A small plant with two leaves on a stem. */
export function sprout(pen: Pen, at: Point, height: number, fill: Fill = 'shade'): SvgNode[] {
  const top: Point = [at[0], at[1] - height]
  const low: Point = [at[0], at[1] - height * 0.45]
  const leaf = (from: Point, degrees: number) =>
    pen.shape(leafOutline(spline([from, toward(from, degrees, height * 0.5)]), height * 0.26), fill, 'thin')
  return [pen.stroke([at, top], 'mid'), leaf(low, -155), leaf(low, -25), leaf(top, -130), leaf(top, -50)]
}

/** The same plant, hanging and dry. */
export function withered(pen: Pen, at: Point, height: number): SvgNode[] {
  const stem = spline([
    at,
    [at[0] + 1, at[1] - height * 0.5],
    [at[0] + 8, at[1] - height * 0.8],
    [at[0] + 19, at[1] - height * 0.62],
  ])
  const drop = (share: number, degrees: number) => {
    const { point } = placeOn(stem, share)
    return pen.stroke(bent(point, degrees, height * 0.4, degrees > 90 ? -35 : 35), 'mid')
  }
  return [pen.stroke(stem, 'mid', '7 5'), drop(0.4, 150), drop(0.4, 30), drop(0.72, 140), drop(1, 80)]
}

/** The cut end of a tube, drawn as a flat ellipse. */
export function rim(center: Point, rx: number): Line {
  return oval(center, rx, rx * 0.3)
}

/** A sleeve or stem seen from the side: two edges. */
export function tube(
  pen: Pen,
  x: number,
  top: number,
  bottom: number,
  width: number,
  fill: Fill = 'shade',
): SvgNode[] {
  const half = width / 2
  const outline: Line = points(x - half, top, x + half, top, x + half, bottom, x - half, bottom)
  return [
    pen.shape(outline, fill, 'no-line'),
    pen.stroke(points(x - half, top, x - half, bottom), 'mid'),
    pen.stroke(points(x + half, top, x + half, bottom), 'mid'),
  ]
}

/** Outlines of equal rounded petals, seen from above. */
export function petalOutlines(center: Point, radius: number, petals: number): readonly Line[] {
  const width = Math.min(1.25, 2.6 * Math.sin(Math.PI / petals)) * radius * 0.62
  return Array.from({ length: petals }, (_, n) => {
    const degrees = -90 + (360 / petals) * n
    const line = spline([toward(center, degrees, radius * 0.1), toward(center, degrees, radius)])
    return ribbon(line, (share) => width * Math.sin(Math.PI * (0.06 + 0.94 * share)) ** 0.55)
  })
}

/** A flower of such petals. `mark` draws a pattern on each petal. */
export function flower(
  pen: Pen,
  center: Point,
  radius: number,
  petals: number,
  fill: Fill = 'paper',
  mark: (petal: Line) => readonly SvgNode[] = () => [],
): SvgNode[] {
  return [
    ...petalOutlines(center, radius, petals).flatMap((petal) => [
      pen.shape(petal, fill, 'mid'),
      ...mark(petal),
    ]),
    pen.ring(center, radius * 0.16, 'paper', 'thin'),
  ]
}
