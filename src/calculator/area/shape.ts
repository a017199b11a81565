import { z } from 'zod'
import { quantityOf } from '#src/quantity/rate.ts'
import { areaUnits, unitsOf } from '#src/quantity/units.ts'

const Length = quantityOf(unitsOf('length'))

/** What was measured of one piece of ground. Kept with an area, so that anybody can see and check it. */
export const Shape = z.discriminatedUnion('shape', [
  z.strictObject({ shape: z.literal('rectangle'), length: Length, width: Length }),
  /** The height stands square on the base. */
  z.strictObject({ shape: z.literal('triangle'), base: Length, height: Length }),
  z.strictObject({ shape: z.literal('triangle-sides'), sides: z.tuple([Length, Length, Length]) }),
  /** Two parallel sides and the distance between them. */
  z.strictObject({ shape: z.literal('trapezoid'), sides: z.tuple([Length, Length]), height: Length }),
  z.strictObject({
    shape: z.literal('circle'),
    by: z.enum(['radius', 'diameter', 'circumference']),
    measure: Length,
  }),
  /** Both axes from edge to edge. */
  z.strictObject({ shape: z.literal('ellipse'), long: Length, short: Length }),
  /** Widths across a straight line, at equal spacing, from one end to the other; ends may be zero. */
  z.strictObject({
    shape: z.literal('offsets'),
    rule: z.enum(['trapezoid', 'simpson']),
    spacing: Length,
    offsets: z.array(Length).min(2).max(200),
  }),
  /** An area known from elsewhere: a plan, a map, a house. */
  z.strictObject({ shape: z.literal('known'), area: quantityOf(areaUnits) }),
])
export type Shape = z.infer<typeof Shape>
export type ShapeName = Shape['shape']

/** Ground to treat: pieces that add up, less what lies in them and is not treated. */
export const Ground = z.strictObject({
  pieces: z.array(Shape).min(1).max(25),
  without: z.array(Shape).max(25),
})
export type Ground = z.infer<typeof Ground>
