import { addDays, daysBetween, laterOf } from '../day.ts'
import type { CountLimit, IntervalLimit } from '../limits.ts'
import type { Reason } from '../verdict.ts'
import { reason } from '../verdict.ts'
import type { Case } from './case.ts'
import { inScope } from './case.ts'
import { freesOn, isCounted, onThisGround, yearsHolding } from './year.ts'

/** Too soon after a treatment that counts, or, when a log is written late, too soon before one. */
export function checkInterval(asked: Case): readonly Reason[] {
  return inScope(asked.entry.limits.interval, asked).flatMap((limit) => intervalReasons(limit, asked))
}

function intervalReasons(limit: IntervalLimit, { entry, situation }: Case): Reason[] {
  const tooNear = onThisGround(situation.treatments)
    .filter((treatment) => isCounted(entry, limit.counts, treatment))
    .filter(({ on }) => Math.abs(daysBetween(on, situation.today)) < limit.days)
  const [first, ...more] = tooNear.map(({ on }) => on)
  if (first === undefined) return []
  const last = more.reduce(laterOf, first)
  const next = { day: addDays(last, limit.days) }
  return [reason('refusal', 'interval', { days: limit.days, last: { day: last }, next }, limit)]
}

/** One treatment more than the label allows in a year. */
export function checkCount(asked: Case): readonly Reason[] {
  return inScope(asked.entry.limits.treatments, asked).flatMap((limit) => countReasons(limit, asked))
}

function countReasons(limit: CountLimit, { entry, situation }: Case): Reason[] {
  const counted = onThisGround(situation.treatments).filter((one) => isCounted(entry, limit.counts, one))
  const years = yearsHolding(situation.today, limit.period, counted)
  const most = years.reduce<(typeof years)[number]>((a, b) => (b.length > a.length ? b : a), [])
  if (most.length < limit.most) return []
  const next = { day: freesOn(limit.period, most) ?? situation.today }
  return [reason('refusal', 'treatments-used-up', { most: limit.most, done: most.length, next }, limit)]
}

/** The chosen line is for a first treatment, and this ground has had one within the year. */
export function checkFirstLine({ entry, situation, lines }: Case): readonly Reason[] {
  const [line, ...others] = lines
  if (line === undefined || others.length > 0 || line.treatment !== 'first') return []
  const before = onThisGround(situation.treatments).filter((treatment) => treatment.entry === entry.name)
  const year = yearsHolding(situation.today, 'rolling', before).flat()
  const last = year
    .map(({ on }) => on)
    .sort()
    .at(-1)
  return last === undefined ? [] : [reason('question', 'first-line-again', { last: { day: last } }, line)]
}

/** The same way of working on the same ground again and again breeds weeds that stand it. */
export function checkRotation({ entry, situation, settings }: Case): readonly Reason[] {
  const groups = new Set(entry.actives.flatMap(({ group }) => (group === undefined ? [] : [group])))
  return [...groups].flatMap((group) => {
    const uses = onThisGround(situation.treatments).filter(({ actives }) =>
      actives.some((one) => one.group === group),
    )
    const counts = yearsHolding(situation.today, 'rolling', uses).map(({ length }) => length)
    const times = Math.max(0, ...counts) + 1
    return times >= settings.groupUses ? [reason('heads-up', 'group-again', { group, times })] : []
  })
}
