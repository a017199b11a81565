import { z } from 'zod'

const typed = (most = 300) => z.string().min(1).max(most).optional()

export const ShapeOption = z.enum(['rectangle', 'triangle', 'trapezoid', 'circle', 'ellipse', 'offsets'])
export type ShapeOption = z.infer<typeof ShapeOption>

/** One measured piece of ground, and what lies in it and is not treated. */
export const AreaOptions = z.strictObject({
  shape: ShapeOption,
  length: typed(),
  width: typed(),
  base: typed(),
  height: typed(),
  sides: typed(),
  radius: typed(),
  diameter: typed(),
  circumference: typed(),
  spacing: typed(),
  measurements: typed(2000),
  rule: z.enum(['trapezoid', 'simpson']).optional(),
  minus: typed(1000),
  unit: z.enum(['ft2', 'acre', 'm2', 'ha']).optional(),
  site: typed(80).meta({ suggest: 'sites' }),
  area: typed(80).meta({ suggest: 'areas' }),
})
export type AreaOptions = z.infer<typeof AreaOptions>
