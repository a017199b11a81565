import { z } from 'zod'

/**
 * Turf injury on the scale of turf trials, 9 no damage to 1, lower being worse. Iowa State University 1999 report,
 * postemergent annual weed study: http://www.hort.iastate.edu/turfgrass/pubs/turfrpt/1999/postcrab98.html
 */
export const InjuryStep = z.int().min(1).max(9)
export type InjuryStep = z.infer<typeof InjuryStep>

/** The nine steps from 9 down; the words of each are `recheck.injury-<step>`. */
export const InjuryScale = z
  .array(z.strictObject({ step: InjuryStep, source: z.string().min(8) }))
  .length(9)
  .refine((steps) => steps.every(({ step }, at) => step === 9 - at), 'the steps run from 9 to 1')
export type InjuryScale = z.infer<typeof InjuryScale>
