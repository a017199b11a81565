import { drawShape } from '#src/calculator/area/drawing.ts'
import type { Shape } from '#src/calculator/area/shape.ts'

const AROUND = 48

/** The outline of a shape as points in feet; a round one as a many-sided one. */
export function outlineOf(shape: Shape): [number, number][] {
  const { outline } = drawShape(shape)
  if (outline.kind === 'polygon') return outline.points.map(([x, y]) => [x, y])
  return Array.from({ length: AROUND }, (_, at) => {
    const angle = (at / AROUND) * 2 * Math.PI
    const [x, y] = outline.center
    return [x + outline.radiusXFt * Math.cos(angle), y + outline.radiusYFt * Math.sin(angle)]
  })
}

/** Pieces taken out, side by side from the lower left: where they lie nobody has measured. */
export function outlinesWithin(without: readonly Shape[]): { points: [number, number][]; minus: true }[] {
  let right = 0
  return without.map((shape) => {
    const points = outlineOf(shape)
    const moved = points.map(([x, y]): [number, number] => [x + right, y])
    right += Math.max(...points.map(([x]) => x)) * 1.2
    return { points: moved, minus: true }
  })
}
