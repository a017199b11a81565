/**
 * How the invented crew works. Every share is common practice, no source: a guess at a crew of four that mostly does
 * it right, so that the report shows what an ordinary day meets.
 */
export const habits = {
  mixesAWeek: 25,
  /** From early March to late October. */
  weeks: 34,
  firstDay: '2026-03-02',
  /** Names site and area when asking. */
  namesSite: 0.9,
  /** Names the weed. */
  namesWeed: 0.7,
  /** Picks the product from the lines that list this weed on this turf; else any bottle on the truck. */
  looksUpProduct: 0.85,
  /** Types a rate off the label in hand instead of naming the product. */
  typesRate: 0.06,
  /** Asks for ground to cover instead of a part of the tank. */
  asksByGround: 0.2,
  /** It is the very ground of the last treatment. */
  sameGround: 0.35,
  /** Rinses the sprayer three times at the end of the day. */
  rinsesAtNight: 0.85,
  /** In between, empties it and rinses, where the question comes up. */
  rinsesBetween: 0.6,
  /** Measures an output again after a note that it is getting old. */
  measuresAgain: 0.5,
} as const

export type Habits = {
  readonly [Name in keyof typeof habits]: (typeof habits)[Name] extends string ? string : number
}
