import { ratioTo } from './amounts.ts'
import { checkFigures } from './check-figures.ts'
import type { LabelEntry } from './entry.ts'
import { rateOf } from './figures.ts'
import { coversTurf } from './fitting.ts'
import type { EntryProblem } from './problem.ts'
import { problem } from './problem.ts'
import { readLocalNeedState, readRegistrationNumber } from './registration.ts'

/** Taxa that the key knows, so that an entry cannot name one that nobody can find. */
export type KnownTaxa = ReadonlySet<string>

/**
 * Everything that the shape alone cannot tell: numbers on the label, figures, pairs of printed units, names that
 * refer to one another. An entry with no problem here never makes `mayI` throw.
 */
export function checkEntry(entry: LabelEntry, taxa?: KnownTaxa): readonly EntryProblem[] {
  const figures = checkFigures(entry)
  return [
    ...checkNumbers(entry),
    ...figures,
    ...(figures.length > 0 ? [] : [...checkRanges(entry), ...checkPairs(entry)]),
    ...checkNames(entry),
    ...(taxa === undefined ? [] : checkTaxa(entry, taxa)),
  ]
}

function checkNumbers({ registration }: LabelEntry): readonly EntryProblem[] {
  const { number, exempt25b, specialLocalNeed } = registration
  const path = 'registration.number'
  const read = number === undefined ? null : readRegistrationNumber(number)
  return [
    ...(number === undefined && !exempt25b ? [problem(path, 'registration-missing')] : []),
    ...(read !== null && !read.ok
      ? [problem(path, `registration-${read.error}`, { number: number ?? '' })]
      : []),
    ...(specialLocalNeed !== undefined && readLocalNeedState(specialLocalNeed) === null
      ? [problem('registration.specialLocalNeed', 'local-need-malformed', { number: specialLocalNeed })]
      : []),
  ]
}

function checkRanges(entry: LabelEntry): readonly EntryProblem[] {
  return entry.rateLines.flatMap((line, n) =>
    line.rates.flatMap(({ low, high }, m) => {
      if (low === undefined) return []
      const ratio = ratioTo(rateOf(entry, low), rateOf(entry, high))
      const path = `rateLines[${n}].rates[${m}].low`
      if (ratio === null) return [problem(path, 'low-other-unit', { low, high })]
      return ratio.gt(1) ? [problem(path, 'low-above-high', { low, high })] : []
    }),
  )
}

/** Equivalents of one rate in several units that are further apart than rounding explains are a slip of typing. */
function checkPairs(entry: LabelEntry): readonly EntryProblem[] {
  const { perApplication = [], perYear = [] } = entry.limits
  return [
    ...entry.rateLines.flatMap(({ rates }, n) =>
      pairs(
        entry,
        `rateLines[${n}].rates`,
        rates.map(({ high }) => high),
      ),
    ),
    ...perApplication.flatMap(({ rates }, n) => pairs(entry, `limits.perApplication[${n}].rates`, rates)),
    ...perYear.flatMap(({ rates }, n) => pairs(entry, `limits.perYear[${n}].rates`, rates)),
  ]
}

function pairs(entry: LabelEntry, path: string, texts: readonly string[]): readonly EntryProblem[] {
  const [first, ...others] = texts
  if (first === undefined) return []
  return others.flatMap((other, n) => {
    const ratio = ratioTo(rateOf(entry, other), rateOf(entry, first))
    const isFar = ratio !== null && (ratio.gt(FAR_APART) || ratio.times(FAR_APART).lt(1))
    return isFar ? [problem(`${path}[${n + 1}]`, 'pair-disagrees-far', { first, second: other })] : []
  })
}

/** However few digits a label prints, no rounding takes two units of one rate so far apart (common practice, no source). */
const FAR_APART = '1.5'

function checkNames(entry: LabelEntry): readonly EntryProblem[] {
  const ids = entry.rateLines.map(({ id }) => id)
  const { perApplication = [], perYear = [], treatments = [], interval = [] } = entry.limits
  const scoped = Object.entries({ perApplication, perYear, treatments, interval })
  return [
    ...ids.flatMap((id, n) =>
      ids.indexOf(id) < n ? [problem(`rateLines[${n}].id`, 'line-twice', { id })] : [],
    ),
    ...scoped.flatMap(([kind, limits]) =>
      limits.flatMap(({ lines = [] }, n) =>
        lines
          .filter((id) => !ids.includes(id))
          .map((id) => problem(`limits.${kind}[${n}].lines`, 'scope-unknown-line', { line: id })),
      ),
    ),
    ...checkActives(entry),
    ...bothListedAndExcluded(entry),
  ]
}

/** A yearly limit says which active it counts as soon as there are several. */
function checkActives({ actives, limits }: LabelEntry): readonly EntryProblem[] {
  const names = actives.map(({ name }) => name)
  return (limits.perYear ?? []).flatMap(({ active, counts, rates }, n) => {
    const path = `limits.perYear[${n}].active`
    if (active !== undefined)
      return names.includes(active) ? [] : [problem(path, 'active-unknown', { active })]
    const countsActive = counts === 'active' || rates.some((text) => /\b(ai|ae)\b/i.test(text))
    return countsActive && names.length > 1 ? [problem(path, 'active-not-named')] : []
  })
}

function bothListedAndExcluded({ rateLines, excludedTurfs = [] }: LabelEntry): readonly EntryProblem[] {
  return excludedTurfs.flatMap(({ taxa }, n) =>
    taxa
      .filter((taxon) => rateLines.some(({ turfs }) => coversTurf(turfs, taxon)))
      .map((taxon) => problem(`excludedTurfs[${n}].taxa`, 'turf-listed-and-excluded', { taxon })),
  )
}

function checkTaxa(entry: LabelEntry, known: KnownTaxa): readonly EntryProblem[] {
  const unknown = (path: string, taxa: readonly string[] = []) =>
    taxa.filter((taxon) => !known.has(taxon)).map((taxon) => problem(path, 'taxon-unknown', { taxon }))
  return [
    ...entry.rateLines.flatMap(({ turfs, weeds = [] }, n) => [
      ...turfs.flatMap(({ taxa }, m) => unknown(`rateLines[${n}].turfs[${m}].taxa`, taxa)),
      ...weeds.flatMap(({ taxa }, m) => unknown(`rateLines[${n}].weeds[${m}].taxa`, taxa)),
    ]),
    ...(entry.excludedTurfs ?? []).flatMap(({ taxa }, n) => unknown(`excludedTurfs[${n}].taxa`, taxa)),
  ]
}
