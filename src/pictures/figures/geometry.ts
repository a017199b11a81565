export type Point = readonly [x: number, y: number]
export type Line = readonly Point[]

/** `points(0, 0, 10, 5)`: a line from (0, 0) to (10, 5). */
export function points(...coordinates: readonly number[]): Line {
  return Array.from({ length: coordinates.length / 2 }, (_, at) => {
    return [coordinates[2 * at] ?? 0, coordinates[2 * at + 1] ?? 0] as const
  })
}

const DEGREE = Math.PI / 180

/** The point a way off in a direction; 0° points right, 90° down, as on screen. */
export function toward(from: Point, degrees: number, distance: number): Point {
  return [from[0] + distance * Math.cos(degrees * DEGREE), from[1] + distance * Math.sin(degrees * DEGREE)]
}

/** A smooth line through all points (Catmull-Rom), as short straight pieces. */
export function spline(points: Line, closed = false, pieces = 10): Line {
  const last = points.length - 1
  if (last < 1) return points
  const pick = (at: number): Point => {
    const index = closed ? (at + points.length) % points.length : Math.min(Math.max(at, 0), last)
    return points[index] ?? [0, 0]
  }
  const line: Point[] = []
  for (let at = 0; at < (closed ? points.length : last); at++) {
    const [a, b, c, d] = [pick(at - 1), pick(at), pick(at + 1), pick(at + 2)]
    for (let piece = 0; piece < pieces; piece++) {
      const t = piece / pieces
      line.push([bend(a[0], b[0], c[0], d[0], t), bend(a[1], b[1], c[1], d[1], t)])
    }
  }
  return closed ? line : [...line, pick(last)]
}

function bend(a: number, b: number, c: number, d: number, t: number): number {
  return (
    0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t + (3 * b - a - 3 * c + d) * t * t * t)
  )
}

/** Part of an ellipse between two directions. */
export function arc(center: Point, rx: number, ry: number, from: number, to: number): Line {
  const steps = Math.max(4, Math.ceil(Math.abs(to - from) / 10))
  return Array.from({ length: steps + 1 }, (_, at) => {
    const angle = (from + ((to - from) * at) / steps) * DEGREE
    return [center[0] + rx * Math.cos(angle), center[1] + ry * Math.sin(angle)] as const
  })
}

/** A closed ellipse, without its first point twice. */
export function oval(center: Point, rx: number, ry: number = rx): Line {
  return arc(center, rx, ry, 0, 350)
}

export function lengthOf(line: Line): number {
  return stepsOf(line).reduce((sum, step) => sum + step, 0)
}

/** How long each piece of a line is. */
function stepsOf(line: Line): number[] {
  return line.slice(1).map((point, at) => distance(line[at] ?? point, point))
}

/** Not by Math.hypot, which takes a hundred times as long: a picture of the key measures some thousand pieces. */
function distance(one: Point, other: Point): number {
  const [dx, dy] = [other[0] - one[0], other[1] - one[1]]
  return Math.sqrt(dx * dx + dy * dy)
}

/** A place on a line: the point, and the direction in which the line goes on there. */
export interface Place {
  readonly point: Point
  readonly degrees: number
}

/** The place at a share of the line's length, 0 its start and 1 its end. */
export function placeOn(line: Line, share: number): Place {
  return placeAlong(line, stepsOf(line), share)
}

function placeAlong(line: Line, steps: readonly number[], share: number): Place {
  const length = steps.reduce((sum, step) => sum + step, 0)
  let rest = length * Math.min(Math.max(share, 0), 1)
  for (let at = 1; at < line.length; at++) {
    const [from, to]: [Point, Point] = [line[at - 1] ?? [0, 0], line[at] ?? [0, 0]]
    const step = steps[at - 1] ?? 0
    if (step > 0 && (rest <= step || at === line.length - 1)) {
      const share = Math.min(rest / step, 1)
      return {
        point: [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share],
        degrees: Math.atan2(to[1] - from[1], to[0] - from[0]) / DEGREE,
      }
    }
    rest -= step
  }
  return { point: line[0] ?? [0, 0], degrees: 0 }
}

/** Places at even distances; with one place, the middle. */
export function placesOn(line: Line, count: number, from = 0, to = 1): readonly Place[] {
  const steps = stepsOf(line)
  return Array.from({ length: count }, (_, at) =>
    placeAlong(line, steps, count === 1 ? (from + to) / 2 : from + ((to - from) * at) / (count - 1)),
  )
}

/** A band along a line, as a closed outline. `widthAt` gives its full width at a share of the length. */
export function ribbon(line: Line, widthAt: (share: number) => number, count = 24): Line {
  const places = placesOn(line, count)
  const side = (turn: number) =>
    places.map((place, at) => toward(place.point, place.degrees + turn, widthAt(at / (count - 1)) / 2))
  return [...side(-90), ...side(90).reverse()]
}

export function moved(line: Line, dx: number, dy: number): Line {
  return line.map(([x, y]) => [x + dx, y + dy] as const)
}

/** Turned around a point, clockwise as seen. */
export function turned(line: Line, degrees: number, about: Point): Line {
  const [cos, sin] = [Math.cos(degrees * DEGREE), Math.sin(degrees * DEGREE)]
  return line.map(([x, y]) => {
    const [dx, dy] = [x - about[0], y - about[1]]
    return [about[0] + dx * cos - dy * sin, about[1] + dx * sin + dy * cos] as const
  })
}

/** Mirrored left to right at a vertical axis. */
export function mirrored(line: Line, axisX = 80): Line {
  return line.map(([x, y]) => [2 * axisX - x, y] as const)
}

/** Parallel strokes that fill a closed outline, at an angle and a distance; `inset` keeps them off the edge. */
export function hatchLines(outline: Line, degrees: number, gap: number, inset = 0): readonly Line[] {
  const level = turned(outline, -degrees, [0, 0])
  const ys = level.map((point) => point[1])
  const lines: Line[] = []
  for (let y = Math.min(...ys) + gap / 2; y < Math.max(...ys); y += gap) {
    const cuts = crossings(level, y)
    for (let at = 0; at + 1 < cuts.length; at += 2) {
      const [from, to] = [(cuts[at] ?? 0) + inset, (cuts[at + 1] ?? 0) - inset]
      if (to - from > 1)
        lines.push(
          turned(
            [
              [from, y],
              [to, y],
            ],
            degrees,
            [0, 0],
          ),
        )
    }
  }
  return lines
}

function crossings(outline: Line, y: number): number[] {
  return outline
    .flatMap((from, at) => {
      const to = outline[(at + 1) % outline.length] ?? from
      if (from[1] < y === to[1] < y) return []
      return [from[0] + ((y - from[1]) / (to[1] - from[1])) * (to[0] - from[0])]
    })
    .sort((a, b) => a - b)
}
