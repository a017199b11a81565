import { compareNumbers } from '#src/quantity/big.ts'
import type { Guidance } from './guidance.ts'
import type { LabelDay, Readings, TurfState } from './readings.ts'
import type { Reason } from './reason.ts'
import { byLabel, reason } from './reason.ts'

/** The grass and the ground: what they do not stand, or what would keep the product from working. */
export function judgeTurf(label: LabelDay, readings: Readings, guidance: Guidance): Reason[] {
  const turf = readings.turf ?? {}
  return [
    ...stress(label, turf),
    ...dormancy(label, turf),
    ...ground(label, turf),
    ...mowing(label, turf, guidance),
    ...watering(label, turf),
  ]
}

function stress(label: LabelDay, turf: TurfState): Reason[] {
  const found: Reason[] = []
  if (turf.drought && label.through !== 'soil') found.push(reason('hold', 'weather.turf-drought'))
  if (turf.greeningUp) found.push(reason('hold', 'weather.turf-greening-up'))
  if (turf.isNew) found.push(reason('hold', 'weather.turf-new'))
  return found
}

function dormancy(label: LabelDay, turf: TurfState): Reason[] {
  const rule = label.dormant
  if (rule?.rule === 'only' && turf.dormant !== true) {
    return turf.dormant === undefined
      ? [reason('question', 'weather.turf-dormant-unknown')]
      : [byLabel('refusal', 'weather.turf-not-dormant', {}, rule)]
  }
  if (turf.dormant !== true || rule?.rule === 'only') return []
  if (rule?.rule === 'never') return [byLabel('refusal', 'weather.turf-dormant-label', {}, rule)]
  return label.through === 'soil' ? [] : [reason('heads-up', 'weather.turf-dormant')]
}

function ground(label: LabelDay, turf: TurfState): Reason[] {
  const found: Reason[] = []
  if (turf.soaked) found.push(reason('hold', 'weather.ground-soaked'))
  if (turf.frozenOrSnow) found.push(reason('hold', 'weather.ground-frozen'))
  if (!turf.overTreeRoots || label.treeRoots?.rule === 'allowed') return found
  const roots =
    label.treeRoots === undefined
      ? reason('question', 'weather.tree-roots')
      : byLabel('refusal', 'weather.tree-roots-label', {}, label.treeRoots)
  return [...found, roots]
}

const days = (value: number | string) => ({ value: String(value), unit: 'day' })

/** Mown too lately leaves little leaf to spray; mown too soon takes the product away before it has moved. */
function mowing(label: LabelDay, turf: TurfState, guidance: Guidance): Reason[] {
  const published = label.through === 'soil' ? [] : guidance.mowing
  const { daysBefore, daysAfter } = label.mowing ?? {}
  const { mownDaysAgo: ago, mowInDays: until } = turf
  const found: Reason[] = []
  if (ago !== undefined) {
    if (daysBefore === undefined)
      found.push(
        ...gap(
          'mown',
          ago,
          published.map((one) => one.daysSince),
        ),
      )
    else if (ago < daysBefore) found.push(mowingLabel(label, 'weather.mown-label', ago, daysBefore))
  }
  if (until !== undefined) {
    if (daysAfter === undefined)
      found.push(
        ...gap(
          'mow',
          until,
          published.map((one) => one.daysUntil),
        ),
      )
    else if (until < daysAfter) found.push(mowingLabel(label, 'weather.mow-label', until, daysAfter))
  }
  return found
}

function mowingLabel(label: LabelDay, id: string, given: number, needed: number): Reason {
  return byLabel('hold', id, { given: days(given), needed: days(needed) }, label.mowing ?? {})
}

interface Span {
  readonly least: string
  readonly most: string
}

const GAP_IDS = {
  mown: { hold: 'weather.mown-too-close', 'heads-up': 'weather.mown-close' },
  mow: { hold: 'weather.mow-too-close', 'heads-up': 'weather.mow-close' },
} as const

function gap(which: 'mown' | 'mow', given: number, spans: readonly Span[]): Reason[] {
  const least = spans.map((span) => span.least).sort(compareNumbers)[0] ?? '0'
  const longest = spans.map((span) => span.most).sort(compareNumbers)
  const most = longest.at(-1) ?? '0'
  if (compareNumbers(given, most) >= 0) return []
  const outcome = compareNumbers(given, least) < 0 ? 'hold' : 'heads-up'
  const figures = { given: days(given), least: days(least), most: days(most) }
  return [reason(outcome, GAP_IDS[which][outcome], figures)]
}

function watering(label: LabelDay, turf: TurfState): Reason[] {
  const rule = label.watering
  if (rule === undefined || turf.waterInHours === undefined) return []
  const figures = { given: { value: String(turf.waterInHours), unit: 'h' } }
  if (rule.rule === 'hold off' && rule.hours !== undefined && turf.waterInHours < rule.hours) {
    const needed = { value: String(rule.hours), unit: 'h' }
    return [byLabel('hold', 'weather.water-too-soon', { ...figures, needed }, rule)]
  }
  if (rule.rule === 'water in' && rule.hours !== undefined && turf.waterInHours > rule.hours) {
    const needed = { value: String(rule.hours), unit: 'h' }
    return [byLabel('hold', 'weather.water-too-late', { ...figures, needed }, rule)]
  }
  return []
}
