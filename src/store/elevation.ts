import { z } from 'zod'

/** A height above the sea as it was given: a decimal, in feet or meters; below the sea it is negative. */
export const Elevation = z.strictObject({ value: z.string(), unit: z.enum(['ft', 'm']) })
export type Elevation = z.infer<typeof Elevation>
