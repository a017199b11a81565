import { points } from './geometry.ts'
import type { Figure, FigureSet, Pen } from './pen.ts'

/** Units of the figure for a millimeter. */
const MM = 6.4
const LEFT = 14

function ruler(pen: Pen) {
  return [
    pen.shape(points(LEFT - 6, 108, 152, 108, 152, 148, LEFT - 6, 148), 'paper', 'thin'),
    ...Array.from({ length: 22 }, (_, mm) => {
      const x = LEFT + mm * MM
      const length = mm % 10 === 0 ? 26 : mm % 5 === 0 ? 19 : 11
      return pen.stroke(points(x, 108, x, 108 + length), mm % 5 === 0 ? 'mid' : 'hair')
    }),
  ]
}

/** A blade of this width, its left edge at the ruler's zero; long strokes stand at 0, 10 and 20 mm. */
function bladeOnRuler(widthMm: number): Figure {
  return (pen) => {
    const width = widthMm * MM
    return [
      ...ruler(pen),
      pen.shape(points(LEFT, 6, LEFT + width, 6, LEFT + width, 106, LEFT, 106), 'shade', 'no-line'),
      pen.stroke(points(LEFT, 6, LEFT, 106), 'mid'),
      pen.stroke(points(LEFT + width, 6, LEFT + width, 106), 'mid'),
      pen.stroke(points(LEFT + width, 8, LEFT + width, 146), 'hair', '3 5'),
    ]
  }
}

/** Widths are the middles of the classes. */
export const bladeWidth: FigureSet = {
  'under-2': bladeOnRuler(1.2),
  '2-4': bladeOnRuler(3),
  '4-8': bladeOnRuler(6),
  '8-15': bladeOnRuler(11.5),
  'over-15': bladeOnRuler(18.5),
}
