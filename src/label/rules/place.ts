import { compareNumbers } from '#src/quantity/big.ts'
import { compareQuantities, convertNumber } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import type { Day } from '../day.ts'
import { addDays, daysBetween } from '../day.ts'
import { measureOf, outputOf, outputParam } from '../figures.ts'
import type { NewTurfWait } from '../limits.ts'
import type { Printed } from '../printed.ts'
import type { Reason } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'

/** Less mix on the ground than the label wants, by the entry as a whole or by every line still possible. */
export function checkOutput(asked: Case): readonly Reason[] {
  const { limits } = asked.entry
  const whole = limits.minimumOutput
    ? lowReasons(limits.minimumOutput.output, limits.minimumOutput, asked)
    : []
  const byLine = asked.lines.map((line) =>
    line.minimumOutput === undefined ? [] : lowReasons(line.minimumOutput, line, asked),
  )
  return [...whole, ...(byLine.every(({ length }) => length > 0) ? byLine.slice(0, 1).flat() : [])]
}

function lowReasons(least: string, source: Printed, { situation: { output } }: Case): Reason[] {
  const minimum = outputOf(least)
  if (output === undefined)
    return [reason('answer', 'mind-output', { minimum: outputParam(minimum) }, source)]
  if (compareOutputs(output, minimum) >= 0) return []
  return [
    reason('refusal', 'below-output', { minimum: outputParam(minimum), output: outputParam(output) }, source),
  ]
}

function compareOutputs(a: Output, b: Output): -1 | 0 | 1 {
  const volume = convertNumber(a.value, a.unit, b.unit)
  const area = convertNumber(a.per.value, a.per.unit, b.per.unit)
  return compareNumbers(volume.times(b.per.value).div(area), b.value)
}

/** New seed or sod that has not had the days or mowings that the label asks for. */
export function checkNewTurf({ entry: { limits }, situation }: Case): readonly Reason[] {
  const { seededOn, soddedOn } = situation
  return [
    ...(limits.newSeed && seededOn !== undefined
      ? waitReasons('seed', limits.newSeed, seededOn, situation)
      : []),
    ...(limits.newSod && soddedOn !== undefined
      ? waitReasons('sod', limits.newSod, soddedOn, situation)
      : []),
  ]
}

interface Since {
  readonly today: Day
  readonly mowings?: number
}

function waitReasons(
  what: 'seed' | 'sod',
  wait: NewTurfWait,
  since: Day,
  { today, mowings }: Since,
): Reason[] {
  const reasons: Reason[] = []
  if (wait.days !== undefined && daysBetween(since, today) < wait.days) {
    const next = { day: addDays(since, wait.days) }
    reasons.push(reason('refusal', `new-${what}-days`, { days: wait.days, next }, wait))
  }
  if (wait.mowings !== undefined && mowings === undefined && isYoung(since, today)) {
    reasons.push(reason('hold', `new-${what}-mowings-unknown`, { mowings: wait.mowings }, wait))
  }
  if (wait.mowings !== undefined && mowings !== undefined && mowings < wait.mowings) {
    reasons.push(reason('refusal', `new-${what}-mowings`, { mowings: wait.mowings, done: mowings }, wait))
  }
  return reasons
}

/** Turf of more than a season has been mown often enough for any label (common practice, no source). */
const YOUNG_DAYS = 180

function isYoung(since: Day, today: Day): boolean {
  return daysBetween(since, today) < YOUNG_DAYS
}

/** Nearer to water than the label's buffer, or nobody knows how near. */
export function checkWater({ entry: { limits }, situation: { water } }: Case): readonly Reason[] {
  const buffer = limits.waterBuffer
  if (buffer === undefined || water === 'none') return []
  const distance = measureOf(buffer.distance, 'length')
  if (water === undefined) return [reason('answer', 'mind-water', { distance }, buffer)]
  if (water === 'unknown') return [reason('hold', 'water-unknown', { distance }, buffer)]
  if (compareQuantities(water, distance) >= 0) return []
  return [
    reason(
      'refusal',
      'water-too-near',
      { distance, water: { value: water.value, unit: water.unit } },
      buffer,
    ),
  ]
}

/**
 * Ground that the Worker Protection Standard covers: lawns are outside it, sod farms and nurseries are not
 * (40 CFR 170.303(b)(2) for lawns; sod from memory).
 */
export function checkProduction({ situation: { production } }: Case): readonly Reason[] {
  return production === true ? [reason('hold', 'worker-rules')] : []
}

/** Mown less long ago than the label asks; how long to wait after it is told. */
export function checkMowing({ entry: { limits }, situation: { mownOn, today } }: Case): readonly Reason[] {
  const { mowing } = limits
  if (mowing === undefined) return []
  const { daysBefore = 0, daysAfter = 0 } = mowing
  const tell = [reason('answer', 'mind-mowing', { before: daysBefore, after: daysAfter }, mowing)]
  if (mownOn === undefined || daysBetween(mownOn, today) >= daysBefore) return tell
  return [
    ...tell,
    reason('hold', 'just-mown', { days: daysBefore, next: { day: addDays(mownOn, daysBefore) } }, mowing),
  ]
}
