import type { FigureSet } from './pen.ts'
import { grassHeads } from './seedhead-grass.ts'
import { otherHeads } from './seedhead-sedge.ts'

/** The build of the seed head. */
export const seedhead: FigureSet = { ...grassHeads, ...otherHeads }
