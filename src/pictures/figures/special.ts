import { leafHallmarks } from './hallmark-leaves.ts'
import { partHallmarks } from './hallmark-parts.ts'
import type { FigureSet } from './pen.ts'

/** Marks of which one look is nearly enough. */
export const special: FigureSet = { ...partHallmarks, ...leafHallmarks }
