import { z } from 'zod'

const typed = (most = 500) => z.string().min(1).max(most).optional()

/** Shapes that are asked for by name; what was measured of them stands in the options beside it. */
export const ShapeChoice = z.enum(['rectangle', 'triangle', 'trapezoid', 'circle', 'ellipse', 'offsets'])
export type ShapeChoice = z.infer<typeof ShapeChoice>

/** Everything that can be said about measured ground. Lengths carry their unit; a number alone is the crew's own. */
export const AreaOptions = z.strictObject({
  shape: ShapeChoice.optional(),
  length: typed(),
  width: typed(),
  base: typed(),
  height: typed(),
  sides: typed(),
  radius: typed(),
  diameter: typed().meta({ aliases: ['across'] }),
  circumference: typed().meta({ aliases: ['around'] }),
  measurements: typed(2000).meta({ aliases: ['offsets', 'widths'] }),
  spacing: typed(),
  rule: z.enum(['trapezoid', 'simpson']).optional(),
  more: typed(1000).meta({ aliases: ['plus'] }),
  minus: typed(1000).meta({ aliases: ['without', 'less'] }),
  unit: typed(40),
  site: typed(80).meta({ suggest: 'sites' }),
  area: typed(60).meta({ suggest: 'areas' }),
})
export type AreaOptions = z.infer<typeof AreaOptions>
