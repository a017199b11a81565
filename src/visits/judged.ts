import type { Judged } from '#src/efficacy/judge.ts'
import { judgeRating } from '#src/efficacy/judge.ts'
import type { CoverBefore, Rating } from '#src/efficacy/rating.ts'
import type { Plot } from '#src/store/plots.ts'
import type { KeptRating } from '#src/store/ratings.ts'

/** Every visit judged, in the order in which they were kept. What one person said of one day last is what counts. */
export function judgeAll(
  ratings: readonly KeptRating[],
  plots: readonly Plot[],
  treatedOn: string,
): readonly Judged[] {
  return lastWords(ratings).map(({ rating }) => judgeOne(rating, plots, treatedOn))
}

export function judgeOne(rating: Rating, plots: readonly Plot[], treatedOn: string): Judged {
  return judgeRating(rating, treatedOn, { before: coverBefore(plots) })
}

/** A second rating by the same person on the same day corrects the first; both stay kept. */
export function lastWords(ratings: readonly KeptRating[]): readonly KeptRating[] {
  return ratings.filter(
    (one, at) =>
      !ratings
        .slice(at + 1)
        .some((later) => later.personId === one.personId && later.rating.on === one.rating.on),
  )
}

function coverBefore(plots: readonly Plot[]): CoverBefore {
  const untreated = plots.find(({ kind }) => kind === 'untreated')
  return {
    plots: plots.flatMap(({ kind, flag, body }) =>
      kind === 'treated' && body.coverPercent !== null
        ? [{ plot: flag, coverPercent: body.coverPercent }]
        : [],
    ),
    untreatedPercent: untreated?.body.coverPercent ?? null,
  }
}
