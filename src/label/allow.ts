import { rememberEqual } from '#src/memory/remember.ts'
import type { Day } from './day.ts'
import { addDays, addYear, newYearAfter } from './day.ts'
import type { LabelEntry } from './entry.ts'
import { narrowLines } from './narrow.ts'
import type { Case, Rule } from './rules/case.ts'
import { checkRain, checkTemperature, checkWind, tellWateringAndDroplets } from './rules/conditions.ts'
import { checkConfirmed, checkRegistration, checkRestricted } from './rules/papers.ts'
import { checkMowing, checkNewTurf, checkOutput, checkProduction, checkWater } from './rules/place.ts'
import { ceilingsOf, checkMaximum, checkMinimum, checkPerApplication } from './rules/rate.ts'
import { checkAdjuvant, checkPartners, tellNonSelective, tellNotes } from './rules/tank.ts'
import { checkCount, checkFirstLine, checkInterval, checkRotation } from './rules/treatments.ts'
import { checkYearly, yearCeilings, yearLeftOf } from './rules/yearly.ts'
import type { AllowSettings, Situation } from './situation.ts'
import { allowDefaults } from './situation.ts'
import type { Ceiling, Reason, Verdict } from './verdict.ts'
import { compareOutcomes, strictest } from './verdict.ts'

/** Rules whose answer changes with the day: waiting helps against these. */
const DATED: readonly Rule[] = [checkInterval, checkCount, checkYearly, checkNewTurf]

const RULES: readonly Rule[] = [
  checkRegistration,
  checkRestricted,
  checkConfirmed,
  checkMaximum,
  checkPerApplication,
  checkMinimum,
  checkOutput,
  ...DATED,
  checkFirstLine,
  checkRotation,
  checkAdjuvant,
  checkPartners,
  tellNonSelective,
  checkTemperature,
  checkWind,
  checkRain,
  checkWater,
  checkProduction,
  checkMowing,
  tellWateringAndDroplets,
  tellNotes,
]

/** How a product is asked about: all that an answer depends on, beside its entry. */
interface Asked {
  readonly situation: Situation
  readonly settings: AllowSettings
}

/** A day's work asks about few grounds of a product, each some times over: for the rate, for what was measured. */
const MOST_ASKED = 20
const answersOf = new WeakMap<LabelEntry, (asked: Asked) => Verdict>()

/**
 * May this product go on this ground, today, like this? Every rule is asked and every reason is kept; the strictest
 * decides. Whatever the label does not say makes no reason, and nothing that is not known is guessed.
 *
 * @throws RangeError for an entry whose figures cannot be read; `checkEntry` finds those before an entry is kept.
 */
export function mayI(
  entry: LabelEntry,
  situation: Situation,
  settings: AllowSettings = allowDefaults,
): Verdict {
  // Only of what cannot be changed may answers be kept: the label book's entries are frozen.
  if (!Object.isFrozen(entry)) return judge(entry, { situation, settings })
  let answer = answersOf.get(entry)
  if (answer === undefined) {
    answer = rememberEqual((asked: Asked) => judge(entry, asked), MOST_ASKED)
    answersOf.set(entry, answer)
  }
  return answer({ situation, settings })
}

function judge(entry: LabelEntry, { situation, settings }: Asked): Verdict {
  const { lines, reasons: found } = narrowLines({ entry, situation, settings })
  const asked: Case = { entry, situation, settings, lines }
  const reasons = inOrder([...found, ...RULES.flatMap((rule) => rule(asked))])
  return {
    outcome: strictest(reasons),
    reasons,
    rateLines: lines,
    ceilings: allCeilings(asked),
    leftThisYear: yearLeftOf(asked),
    earliestNext: earliestNext(asked),
  }
}

/** The strictest first; those of one weight stay in the order of the rules. */
function inOrder(reasons: readonly Reason[]): readonly Reason[] {
  return [...reasons].sort((a, b) => compareOutcomes(b.outcome, a.outcome))
}

function allCeilings(asked: Case): readonly Ceiling[] {
  const [line, ...others] = asked.lines
  return line === undefined || others.length > 0
    ? []
    : [...ceilingsOf(asked, line), ...yearCeilings(asked, line)]
}

/** Tries every day on which something runs out, the nearest first. */
function earliestNext(asked: Case): Day | null {
  const { today } = asked.situation
  const days = [today, ...turningDays(asked)].filter((day) => day >= today).sort()
  return days.find((day) => isOpenOn(day, asked)) ?? null
}

function isOpenOn(today: Day, asked: Case): boolean {
  const isToday = today === asked.situation.today
  const then = isToday ? asked : { ...asked, situation: { ...asked.situation, today } }
  return DATED.every((rule) => rule(then).every(({ outcome }) => outcome !== 'refusal'))
}

function turningDays({ entry: { limits }, situation }: Case): readonly Day[] {
  const { treatments, seededOn, soddedOn } = situation
  const intervals = (limits.interval ?? []).map(({ days }) => days)
  const after = (day: Day | undefined, days: number | undefined) =>
    day === undefined || days === undefined ? [] : [addDays(day, days)]
  return [
    ...treatments.flatMap(({ on }) => [
      addYear(on),
      newYearAfter(on),
      ...intervals.map((days) => addDays(on, days)),
    ]),
    ...after(seededOn, limits.newSeed?.days),
    ...after(soddedOn, limits.newSod?.days),
  ]
}
