import { parseQuantity } from '#src/quantity/parse.ts'
import { parseOutput, parseRate, parseStrength } from '#src/quantity/parse-rate.ts'
import type { QuantityProblem } from '#src/quantity/problem.ts'
import { quantityMessage } from '#src/quantity/problem.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { countsVolume } from '#src/quantity/rate.ts'
import type { Result } from '#src/quantity/result.ts'
import type { Dimension } from '#src/quantity/units.ts'
import type { LabelEntry } from './entry.ts'
import { readingOf } from './figures.ts'
import type { EntryProblem } from './problem.ts'
import { problem } from './problem.ts'

/** A figure of an entry, where it stands and how it is read. */
type Figure = readonly [path: string, text: string | undefined, kind: Kind]
type Kind = 'rate' | 'area-rate' | 'mix-rate' | 'output' | 'strength' | 'acid' | Dimension

/** Every figure of an entry, with its place. */
function figuresOf(entry: LabelEntry): readonly Figure[] {
  const { limits } = entry
  return [
    ...entry.actives.flatMap(({ strength, acid }, n): Figure[] => [
      [`actives[${n}].strength`, strength, 'strength'],
      [`actives[${n}].acid`, acid, 'acid'],
    ]),
    ...entry.rateLines.flatMap((line, n): Figure[] => [
      ...line.rates.flatMap(({ low, high }, m): Figure[] => [
        [`rateLines[${n}].rates[${m}].low`, low, 'rate'],
        [`rateLines[${n}].rates[${m}].high`, high, 'rate'],
      ]),
      [`rateLines[${n}].minimumOutput`, line.minimumOutput, 'output'],
    ]),
    ...(limits.perApplication ?? []).flatMap(({ rates }, n) =>
      each(`limits.perApplication[${n}]`, rates, 'rate'),
    ),
    ...(limits.perYear ?? []).flatMap(({ rates }, n) => each(`limits.perYear[${n}]`, rates, 'area-rate')),
    ['limits.minimumOutput.output', limits.minimumOutput?.output, 'output'],
    ['limits.adjuvant.rate', limits.adjuvant?.rate, 'mix-rate'],
    ['limits.temperature.most', limits.temperature?.most, 'temperature'],
    ['limits.temperature.least', limits.temperature?.least, 'temperature'],
    ['limits.wind.most', limits.wind?.most, 'speed'],
    ['limits.wind.least', limits.wind?.least, 'speed'],
    ['limits.waterBuffer.distance', limits.waterBuffer?.distance, 'length'],
    ['scoop.holds', entry.scoop?.holds, 'mass'],
  ]
}

function each(path: string, rates: readonly string[], kind: Kind): Figure[] {
  return rates.map((text, n) => [`${path}.rates[${n}]`, text, kind])
}

/** Every figure can be read, and counts what a product of this form is measured in. */
export function checkFigures(entry: LabelEntry): readonly EntryProblem[] {
  return figuresOf(entry).flatMap(([path, text, kind]) =>
    text === undefined ? [] : checkOne(path, text, kind, entry),
  )
}

function checkOne(path: string, text: string, kind: Kind, entry: LabelEntry): readonly EntryProblem[] {
  const read = readAs(kind, text, entry)
  if (!read.ok) return [unreadable(path, text, read.error)]
  if (kind === 'acid' && 'of' in read.value && read.value.of !== 'ae')
    return [problem(path, 'acid-not-ae', { typed: text })]
  if (!('kind' in read.value) || !isRateKind(kind)) return []
  return checkRate(path, text, kind, { rate: read.value as Rate, entry })
}

const isRateKind = (kind: Kind) => kind === 'rate' || kind === 'area-rate'

function checkRate(
  path: string,
  text: string,
  kind: Kind,
  { rate, entry }: { readonly rate: Rate; readonly entry: LabelEntry },
): readonly EntryProblem[] {
  if (kind === 'area-rate' && rate.kind !== 'area') return [problem(path, 'not-per-area', { typed: text })]
  if (rate.of === 'product' && countsVolume(rate) !== (entry.form === 'liquid')) {
    return [problem(path, entry.form === 'dry' ? 'dry-by-volume' : 'liquid-by-weight', { typed: text })]
  }
  return []
}

function readAs(kind: Kind, text: string, { form }: LabelEntry): Result<object, QuantityProblem> {
  switch (kind) {
    case 'rate':
    case 'area-rate':
      return parseRate(text, readingOf(form))
    case 'mix-rate':
      // An adjuvant is a liquid, whatever the product is.
      return parseRate(text, readingOf('liquid'))
    case 'output':
      return parseOutput(text, { locale: 'en' })
    case 'strength':
    case 'acid':
      return parseStrength(text, { locale: 'en' })
    default:
      return parseQuantity(text, {
        expect: kind,
        locale: 'en',
        ...(kind === 'mass' ? { ounce: 'oz wt' } : {}),
      })
  }
}

function unreadable(path: string, text: string, error: QuantityProblem): EntryProblem {
  const { id, parameters } = quantityMessage(error)
  return problem(path, 'figure-unreadable', { typed: text, why: { say: id, with: parameters } })
}
