import { DropletRule } from '#src/label/limits.ts'

/** The classes of ANSI/ASAE S572, finest first: the same list from which a label's rule is chosen. */
export const droplets: readonly string[] = DropletRule.shape.classes.element.options
