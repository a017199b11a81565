import { type Line, type Point, points, spline } from './geometry.ts'
import { bothSides } from './leaf-outlines.ts'

/**
 * A leaf cut into pointed lobes on both sides.
 * @param drop how far the lobe's end lies below its root: a positive drop points back to the base
 */
export function cutLeaf(lobes: number, reach: number, drop: number): Line {
  const right: Point[] = [...points(80, 6, 98, 24)]
  const step = 112 / lobes
  for (let lobe = 0; lobe < lobes; lobe++) {
    const y = 26 + lobe * step
    const out = reach * (1 - 0.11 * lobe)
    right.push([86, y + step * 0.22], [86 + out, y + step * 0.34 + drop], [87, y + step * 0.82])
  }
  return bothSides([...right, [84, 150]])
}

/** The same with round lobes. */
export function roundLobedLeaf(lobes: number, reach: number): Line {
  const step = 116 / lobes
  const right: Point[] = [...points(80, 6, 98, 10, 104, 22, 94, 30)]
  for (let lobe = 0; lobe < lobes; lobe++) {
    const y = 32 + lobe * step
    const out = reach * (1 - 0.12 * lobe)
    right.push(
      [90 + out * 0.7, y + step * 0.05],
      [90 + out, y + step * 0.4],
      [90 + out * 0.65, y + step * 0.72],
      [90, y + step * 0.9],
    )
  }
  return bothSides(spline([...right, [84, 152]]))
}
