import type { LabelEntry } from '#src/label/entry.ts'
import { big } from '#src/quantity/big.ts'
import { compareQuantities } from '#src/quantity/quantity.ts'
import { usualDaySettings } from '#src/weather/readings.ts'
import { recorded } from './not-recorded.ts'
import type { RecordDraft } from './record.ts'

/** When an element is asked for; without a condition always. */
export const conditionIds = [
  'for-hire',
  'outdoors',
  'restricted',
  'uncertified',
  'helped',
  'several-sites',
  'not-at-shop',
  'leftover',
  'sprayed',
  'diluted',
  'other-diluent',
  'broadcast',
  'spot',
  'rate-per-area',
  'state-number-on-label',
  'label-interval',
  'label-wind',
  'label-temperature',
  'label-rain',
  'label-weather',
  'label-droplets',
  'calm',
] as const
export type ConditionId = (typeof conditionIds)[number]

/** What a condition looks at: what has been said, and the label book's entries of the products in it. */
export interface Asked {
  readonly draft: RecordDraft
  readonly entries: readonly LabelEntry[]
}

type Condition = (asked: Asked) => boolean

const SPREADERS = ['broadcast spreader', 'drop spreader']

const isSprayed: Condition = ({ draft }) => {
  const method = recorded(draft.method)
  return method === undefined ? recorded(draft.carrier)?.kind !== 'none' : !SPREADERS.includes(method.kind)
}
const products = ({ draft }: Asked) => recorded(draft.products) ?? []
const hasLimit =
  (kind: keyof LabelEntry['limits']): Condition =>
  ({ entries }) =>
    entries.some(({ limits }) => limits[kind] !== undefined)

/** A condition whose ground is not known yet holds: it is better to ask once too often. */
const CONDITIONS: Readonly<Record<ConditionId, Condition>> = {
  'for-hire': ({ draft }) => recorded(draft.forHire) !== false,
  outdoors: ({ draft }) => !['greenhouse', 'indoors'].includes(recorded(draft.grounds) ?? 'turf'),
  restricted: (asked) =>
    products(asked).some(({ restricted }) => recorded(restricted) === true) ||
    asked.entries.some(({ restricted }) => restricted),
  uncertified: ({ draft }) => {
    const license = recorded(draft.license)
    return license !== undefined && 'none' in license
  },
  helped: ({ draft }) => recorded(draft.helpers) === undefined || (recorded(draft.helpers) ?? []).length > 0,
  'several-sites': ({ draft }) => {
    const order = recorded(draft.siteOrder)
    return order !== undefined ? order.of > 1 : draft.siteOrder !== undefined
  },
  'not-at-shop': ({ draft }) => recorded(draft.mixingPlace)?.at !== 'shop',
  leftover: ({ draft }) => {
    const left = recorded(draft.leftover)
    return left !== undefined && big(left.value).gt(0)
  },
  sprayed: isSprayed,
  diluted: (asked) => isSprayed(asked),
  'other-diluent': ({ draft }) => recorded(draft.carrier)?.kind === 'other',
  broadcast: ({ draft }) => (recorded(draft.coverage) ?? 'whole area') === 'whole area',
  spot: ({ draft }) => ['spots', 'strip'].includes(recorded(draft.coverage) ?? ''),
  'rate-per-area': (asked) => products(asked).some(({ rate }) => recorded(rate)?.kind !== 'share'),
  'state-number-on-label': (asked) =>
    asked.entries.some(({ registration }) => registration.stateNumber !== undefined),
  'label-interval': (asked) => products(asked).some(({ label }) => recorded(label)?.entryInterval === true),
  'label-wind': hasLimit('wind'),
  'label-temperature': hasLimit('temperature'),
  'label-rain': hasLimit('rainFree'),
  'label-weather': (asked) => hasLimit('rainFree')(asked) || hasLimit('temperature')(asked),
  'label-droplets': hasLimit('droplets'),
  calm: ({ draft }) => isCalm(draft),
}

/** Was any reading of the wind so low that the air may have lain still? */
export function isCalm(draft: RecordDraft): boolean {
  const { windCalm } = usualDaySettings
  return (recorded(draft.windSpeed) ?? []).some(({ value }) => compareQuantities(value, windCalm) < 0)
}

/** Does this condition hold for what has been said so far? */
export function holds(condition: ConditionId | undefined, asked: Asked): boolean {
  return condition === undefined || CONDITIONS[condition](asked)
}
