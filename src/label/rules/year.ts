import type { Day } from '../day.ts'
import { addYear, newYearAfter } from '../day.ts'
import type { LabelEntry } from '../entry.ts'
import type { Counts, Period } from '../limits.ts'
import type { PastActive, PastTreatment } from '../situation.ts'

/** Treatments of this ground; one that may have been elsewhere counts, one that surely was does not. */
export function onThisGround(treatments: readonly PastTreatment[]): readonly PastTreatment[] {
  return treatments.filter(({ sameGround }) => sameGround !== false)
}

/**
 * The groups of treatments that share a year with a day. A calendar year gives one group. A rolling year gives one
 * for each stretch of twelve months that holds the day, since a log may be written after a later treatment.
 */
export function yearsHolding(
  day: Day,
  period: Period,
  treatments: readonly PastTreatment[],
): readonly (readonly PastTreatment[])[] {
  if (period === 'calendar') return [treatments.filter(({ on }) => on.slice(0, 4) === day.slice(0, 4))]
  const starts = new Set([day, ...treatments.map(({ on }) => on)])
  return [...starts]
    .filter((start) => start <= day && day < addYear(start))
    .map((start) => treatments.filter(({ on }) => start <= on && on < addYear(start)))
}

/** The first day on which one of the treatments no longer counts. */
export function freesOn(period: Period, treatments: readonly PastTreatment[]): Day | null {
  const first = treatments.map(({ on }) => on).sort()[0]
  if (first === undefined) return null
  return period === 'calendar' ? newYearAfter(first) : addYear(first)
}

const plain = (name: string) => name.trim().toLowerCase()

/** What a treatment left of an active, by its name. */
export function activeNamed(treatment: PastTreatment, name: string): PastActive | undefined {
  return treatment.actives.find((active) => plain(active.name) === plain(name))
}

/** Does a limit of this entry count the treatment: by the product, or by an active that they share? */
export function isCounted(entry: LabelEntry, counts: Counts, treatment: PastTreatment): boolean {
  if (treatment.entry === entry.name) return true
  return counts === 'active' && entry.actives.some(({ name }) => activeNamed(treatment, name) !== undefined)
}
