import type { Day } from '#src/label/day.ts'
import { daysBetween } from '#src/label/day.ts'
import type { Result } from '#src/quantity/result.ts'
import type { ControlProblem, PlotSummary } from './control.ts'
import {
  abbottFromDead,
  abbottPercent,
  hendersonTiltonPercent,
  reductionPercent,
  summarizePlots,
} from './control.ts'
import type { CurveArea, CurveProblem } from './curve.ts'
import { areaUnderRatings } from './curve.ts'
import type { CoverBefore, Rating, SpotReading } from './rating.ts'

/**
 * How a percentage came about: with covers before and after on both spots; against the untreated spot by how brown both
 * are, or by their covers; or without an untreated spot, from covers or as it looks. The words are `recheck.by-<id>`.
 */
export type ControlMethod = 'henderson-tilton' | 'abbott' | 'abbott-cover' | 'reduction' | 'as-seen'

export interface PlotControl {
  readonly plot: string
  /** Percent control as decimal text; below zero when the plot is worse than what it is compared with. */
  readonly percent: string
  readonly method: ControlMethod
}

/** What has to be said with a result; the words are `recheck.note-<id>`. */
export type JudgeNote =
  | 'one-plot'
  | 'no-untreated'
  | 'worse-than-untreated'
  | 'untreated-brown'
  | 'untreated-bare'
  | 'mixed-methods'
  | 'rained'
  | 'mown'

/** One visit, judged. */
export interface Judged {
  readonly on: Day
  readonly by: string
  readonly day: number
  readonly isFirstLook: boolean
  readonly plots: readonly PlotControl[]
  /** Mean and range; null when this visit cannot be judged. */
  readonly control: PlotSummary | null
  readonly injury: number
  readonly regrowth: boolean
  readonly seedlings: boolean
  readonly notes: readonly JudgeNote[]
}

export interface JudgeSettings {
  /** An untreated spot browner than this compares nothing any more: frost, drought or drift has been there. */
  readonly mostUntreatedBrownPercent: number
}

/**
 * 10 is where insect tests throw a check away (bottle test guideline reprinted in MR4, Methods in Anopheles Research,
 * chapter 5.1.3); no such figure for turf was found, so it is a setting.
 */
export const judgeDefaults: JudgeSettings = { mostUntreatedBrownPercent: 10 }

/** Percent control of each plot, by the best method that the readings allow. */
export function judgeRating(
  rating: Rating,
  treatedOn: Day,
  {
    before = null,
    settings = judgeDefaults,
  }: { readonly before?: CoverBefore | null; readonly settings?: JudgeSettings } = {},
): Judged {
  const { untreated } = rating
  const isBrown = untreated !== null && untreated.brownPercent > settings.mostUntreatedBrownPercent
  const plots = isBrown ? [] : rating.plots.flatMap((plot) => controlOf(plot, untreated, before))
  return {
    on: rating.on,
    by: rating.by,
    day: daysBetween(treatedOn, rating.on),
    isFirstLook: rating.isFirstLook,
    plots,
    control: summarizePlots(plots.map(({ percent }) => percent)),
    injury: rating.injury,
    regrowth: rating.regrowth,
    seedlings: rating.seedlings,
    notes: notesOn(rating, plots, isBrown),
  }
}

type Read = { readonly plot: string } & SpotReading

function controlOf(
  read: Read,
  untreated: SpotReading | null,
  before: CoverBefore | null,
): readonly PlotControl[] {
  const tried: readonly (readonly [ControlMethod, Result<string, ControlProblem> | null])[] =
    untreated === null
      ? [
          ['reduction', byReduction(read, before)],
          ['as-seen', abbottFromDead(0, read.brownPercent)],
        ]
      : [
          ['henderson-tilton', byBoth(read, untreated, before)],
          ['abbott', abbottFromDead(untreated.brownPercent, read.brownPercent)],
          ['abbott-cover', byCover(read, untreated)],
        ]
  for (const [method, result] of tried)
    if (result?.ok === true) return [{ plot: read.plot, percent: result.value, method }]
  return []
}

function coverBefore({ plot }: Read, before: CoverBefore | null): number | undefined {
  return before?.plots.find((one) => one.plot === plot)?.coverPercent
}

function byBoth(
  read: Read,
  untreated: SpotReading,
  before: CoverBefore | null,
): Result<string, ControlProblem> | null {
  const treatedBefore = coverBefore(read, before)
  const checkBefore = before?.untreatedPercent ?? undefined
  const { coverPercent: treatedAfter } = read
  const { coverPercent: checkAfter } = untreated
  if (treatedBefore === undefined || treatedAfter === undefined) return null
  // An untreated spot that was bare before says nothing about growth.
  if (checkBefore === undefined || checkBefore === 0 || checkAfter === undefined) return null
  return hendersonTiltonPercent({ treatedBefore, treatedAfter, checkBefore, checkAfter })
}

function byCover(read: Read, untreated: SpotReading): Result<string, ControlProblem> | null {
  if (read.coverPercent === undefined || untreated.coverPercent === undefined) return null
  return abbottPercent(untreated.coverPercent, read.coverPercent)
}

function byReduction(read: Read, before: CoverBefore | null): Result<string, ControlProblem> | null {
  const earlier = coverBefore(read, before)
  return earlier === undefined || read.coverPercent === undefined
    ? null
    : reductionPercent(earlier, read.coverPercent)
}

function notesOn(rating: Rating, plots: readonly PlotControl[], isBrown: boolean): readonly JudgeNote[] {
  const { untreated } = rating
  const notes: readonly (readonly [JudgeNote, boolean])[] = [
    ['untreated-brown', isBrown],
    ['untreated-bare', untreated?.coverPercent === 0],
    ['no-untreated', untreated === null],
    ['one-plot', untreated !== null && !isBrown && plots.length === 1],
    ['worse-than-untreated', plots.some(({ percent }) => percent.startsWith('-'))],
    ['mixed-methods', new Set(plots.map(({ method }) => method)).size > 1],
    ['rained', rating.rain === 'yes'],
    ['mown', rating.mown === 'yes'],
  ]
  return notes.filter(([, holds]) => holds).map(([note]) => note)
}

/** Control over the whole time as one figure, from the day of the treatment on. Visits that could not be judged are left out. */
export function curveOf(judged: readonly Judged[]): Result<CurveArea, CurveProblem> {
  const rated = judged.flatMap(({ day, control }) =>
    control === null ? [] : [{ day, percent: control.mean }],
  )
  const start = rated.some(({ day }) => day === 0) ? [] : [{ day: 0, percent: '0' }]
  return areaUnderRatings([...start, ...rated])
}
