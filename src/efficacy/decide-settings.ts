/** The crew's own settings. None of them is a limit of a product. */
export interface DecideSettings {
  /** From this percent control on, with no new growth, it is done. */
  readonly donePercent: string
  /** A gain of so many percent points since the visit before means that it is still working. */
  readonly movingPoints: string
  /** Visits or plots so many percent points apart contradict one another. */
  readonly contradictPoints: string
  readonly plotsApartPoints: string
  /** Turf injury on the 9 to 1 scale: worse than this holds a second application. */
  readonly leastInjuryStep: number
  /** A visit older than this says too little about today. */
  readonly freshDays: number
  /** When to look again where no look is planned. */
  readonly lookAgainDays: number
}

/**
 * Defaults of a new crew. 90: the upper end of "good" in the Canadian Weed Science Society's rating scale (2018), and a
 * pictured step. 10: that scale trusts an eye to 5 or 10 points below it. 6: "some symptoms" in Iowa State's 9 to 1
 * scale (1999). The rest is common practice, no source.
 */
export const decideDefaults: DecideSettings = {
  donePercent: '90',
  movingPoints: '10',
  contradictPoints: '25',
  plotsApartPoints: '50',
  leastInjuryStep: 6,
  freshDays: 14,
  lookAgainDays: 7,
}
