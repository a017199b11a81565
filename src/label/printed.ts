import { z } from 'zod'

const words = (most: number) => z.string().trim().min(1).max(most)

/** A short name as people say it. */
export const Name = words(80)
/** A sentence or paragraph copied from a label. */
export const Words = words(1000)
/** A figure as printed: `0.113 oz wt/1000 ft2`. What it means is read with the product's form in hand. */
export const Figure = words(80)

/** Where the label says it: its own words, and the page of the label that the crew holds. */
export const printed = {
  line: words(600).exactOptional(),
  page: words(20).exactOptional(),
}

/** A limit that holds for some turfs or some rate lines only; for all of them when neither is given. */
export const scope = {
  turfs: z.array(z.string()).min(1).exactOptional(),
  lines: z.array(z.string()).min(1).exactOptional(),
}

/** Something a label says with no figure in it. */
export const Printed = z.strictObject(printed)
export type Printed = z.infer<typeof Printed>

/** Turfs by the label's own words, with the taxa of the key that the crew counts under them. */
export const NamedTurf = z.strictObject({ words: Name, taxa: z.array(z.string()).min(1) })
export type NamedTurf = z.infer<typeof NamedTurf>

/** A weed or a group of weeds by the label's own words, with the taxa that the crew counts under them. */
export const NamedWeed = z.strictObject({ words: Name, taxa: z.array(z.string()).exactOptional() })
export type NamedWeed = z.infer<typeof NamedWeed>

/** Only the label's words and page of whatever carries them. */
export function sourceOf({ line, page }: Printed): Printed {
  return { ...(line === undefined ? {} : { line }), ...(page === undefined ? {} : { page }) }
}
