import { big, compareNumbers, decimalText } from '#src/quantity/big.ts'
import type { AreaRate, Rate } from '#src/quantity/rate.ts'
import { compareAreaRates, compareInTheMix, inUnitOf } from './amounts.ts'
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
      const order = compareRates(rateOf(entry, low), rateOf(entry, high))
      const path = `rateLines[${n}].rates[${m}].low`
      if (order === null) return [problem(path, 'low-other-unit', { low, high })]
      return order > 0 ? [problem(path, 'low-above-high', { low, high })] : []
    }),
  )
}

function compareRates(a: Rate, b: Rate): -1 | 0 | 1 | null {
  if (a.kind === 'area' && b.kind === 'area') return compareAreaRates(a, b)
  return compareInTheMix(a, b)
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
  const [first, ...others] = texts.map((text) => ({ text, rate: rateOf(entry, text) }))
  if (first === undefined || first.rate.kind !== 'area') return []
  const { text, rate } = first
  return others.flatMap((other, n) =>
    other.rate.kind === 'area' && !isRounding(rate, other.rate)
      ? [problem(`${path}[${n + 1}]`, 'pair-disagrees', { first: text, second: other.text })]
      : [],
  )
}

/** Labels that print two units round by up to a tenth where they keep few digits (common practice, no source). */
const ROUNDING_SHARE = '0.1'
/** However few digits are printed, two units of one rate are never half of it apart. */
const MOST_SHARE = '0.5'

function isRounding(a: AreaRate, b: AreaRate): boolean {
  const same = a.of === b.of ? inUnitOf(b, a) : null
  const step = inUnitOf({ ...b, value: decimalText(lastDigit(b.value)) }, a)
  if (same === null || step === null) return true
  const apart = big(a.value).minus(same.value).abs().div(a.value)
  const digits = lastDigit(a.value).plus(step.value).div(a.value)
  if (compareNumbers(apart, MOST_SHARE) >= 0) return false
  return compareNumbers(apart, ROUNDING_SHARE) <= 0 || compareNumbers(apart, digits) <= 0
}

/** One unit of the last printed digit: 0.01 of `4.92`. */
function lastDigit(value: string) {
  return big(10).pow(-(value.split('.')[1]?.length ?? 0))
}

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
          .map((id) => problem(`limits.${kind}[${n}].lines`, 'line-unknown', { line: id })),
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
