import { type Line, points } from './geometry.ts'
import { leafOutlines } from './leaf-outlines.ts'
import type { Figure, FigureSet } from './pen.ts'

function outline(leaf: Line, top: number, bottom: number): Figure {
  return (pen) => [
    pen.stroke(points(80, bottom, 80, 156), 'bold'),
    pen.shape(leaf, 'shade', 'bold'),
    pen.stroke(points(80, top, 80, bottom), 'hair'),
  ]
}

/** Twelve outlines with the stalk below. */
export const leafShape: FigureSet = {
  round: outline(leafOutlines.round, 30, 126),
  kidney: outline(leafOutlines.kidney, 52, 104),
  heart: outline(leafOutlines.heart, 34, 100),
  egg: outline(leafOutlines.egg, 30, 128),
  oblong: outline(leafOutlines.oblong, 26, 128),
  lance: outline(leafOutlines.lance, 26, 130),
  linear: outline(leafOutlines.linear, 22, 132),
  spoon: outline(leafOutlines.spoon, 28, 128),
  wedge: outline(leafOutlines.wedge, 40, 130),
  triangular: outline(leafOutlines.triangular, 34, 122),
  arrow: outline(leafOutlines.arrow, 34, 104),
  teardrop: outline(leafOutlines.teardrop, 36, 132),
}
