import { addDays, dayIn, momentIn } from '#src/desk/clock.ts'
import { momentOf } from '#src/desk/moments.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { signsDown } from '#src/record/posting.ts'
import type { ApplicationRecord } from '#src/record/record.ts'
import type { RuleSet } from '#src/record/rule-set.ts'
import { daysAfter, endOf, hoursAfter } from './moments.ts'

/** What has to wait after an application, or has to be done by a time. */
export const noticeKinds = [
  'keep-off',
  'no-water',
  'water-in',
  'no-mowing',
  'sign-down',
  'customer-copy',
  'no-seed',
  'no-sod',
] as const
export type NoticeKind = (typeof noticeKinds)[number]

/** Kinds that somebody has to do; the others are over by themselves. */
export const taskKinds = ['water-in', 'sign-down', 'customer-copy'] as const satisfies readonly NoticeKind[]
export function isTask(kind: NoticeKind): boolean {
  return (taskKinds as readonly NoticeKind[]).includes(kind)
}

export interface Notice {
  readonly kind: NoticeKind
  /** When it is over, or by when it has to be done; null where no clock tells: until it has dried, or soon. */
  readonly untilMs: number | null
  /** Names of the products whose labels say so; none where the state does. */
  readonly products: readonly string[]
  /** Signs come down at sunset of this plain day, which no clock tells. */
  readonly sunsetOn?: string
}

export interface NoticeParts {
  /** The labels that were in force for the products of the record, as far as the crew has them. */
  readonly entries: readonly LabelEntry[]
  readonly rules: RuleSet
  readonly zone: string
}

/**
 * Everything that an application leaves to wait for or to do, by the labels of its products, the state's table and the
 * record itself. Of several products the strictest word counts. Nothing ends before the application does.
 */
export function noticesOf(record: ApplicationRecord, parts: NoticeParts): readonly Notice[] {
  const endMs = endOf(record, parts.zone)
  const found = [
    ...parts.entries.flatMap((entry) => labelNotices(entry, endMs, parts.zone)),
    ...keepOffOf(record),
    ...signNotices(record, endMs, parts),
    ...copyNotices(record, endMs, parts),
  ]
  return noticeKinds.flatMap((kind) => strictest(found.filter((one) => one.kind === kind)))
}

/** One label wants water in before another allows any: somebody has to decide. */
export function watersDisagree(notices: readonly Notice[]): { waterIn: Notice; noWater: Notice } | null {
  const waterIn = notices.find(({ kind }) => kind === 'water-in')
  const noWater = notices.find(({ kind }) => kind === 'no-water')
  if (waterIn === undefined || noWater === undefined) return null
  const isOpenFirst = waterIn.untilMs === null || (noWater.untilMs ?? 0) < waterIn.untilMs
  return isOpenFirst ? null : { waterIn, noWater }
}

function labelNotices({ name, limits }: LabelEntry, endMs: number, zone: string): readonly Notice[] {
  const { mowing, watering, rainFree, keepOff, seedAfter, sodAfter } = limits
  const products = [name]
  const hours = (kind: NoticeKind, count: number | undefined): Notice[] =>
    count === undefined || count === 0 ? [] : [{ kind, untilMs: hoursAfter(endMs, count), products }]
  const days = (kind: NoticeKind, count: number | undefined): Notice[] =>
    count === undefined || count === 0 ? [] : [{ kind, untilMs: daysAfter(endMs, count, zone), products }]
  return [
    ...days('no-mowing', mowing?.daysAfter),
    ...(watering?.rule === 'hold off' ? hours('no-water', watering.hours) : []),
    ...(watering?.rule === 'water in' ? waterIn(watering.hours, endMs, products) : []),
    // What rain would wash off a sprinkler washes off too (common practice, no source).
    ...hours('no-water', rainFree?.hours),
    ...hours('keep-off', keepOff?.hours),
    ...(keepOff?.untilDry === true ? [{ kind: 'keep-off', untilMs: null, products } as const] : []),
    ...days('no-seed', seedAfter?.days),
    ...days('no-sod', sodAfter?.days),
  ]
}

/** A label that gives no hours wants it watered in all the same. */
function waterIn(hours: number | undefined, endMs: number, products: readonly string[]): readonly Notice[] {
  return [{ kind: 'water-in', untilMs: hours === undefined ? null : hoursAfter(endMs, hours), products }]
}

/** What was told to the customer counts beside the label's own hours. */
function keepOffOf({ keepOffUntil }: ApplicationRecord): readonly Notice[] {
  const until = recorded(keepOffUntil)
  if (until === undefined) return []
  const untilMs = 'untilDry' in until ? null : until.atMs
  return [{ kind: 'keep-off', untilMs, products: [] }]
}

function signNotices(record: ApplicationRecord, endMs: number, parts: NoticeParts): readonly Notice[] {
  const { posting } = parts.rules.state
  if (posting === null || recorded(record.posting)?.done === false) return []
  const { zone } = parts
  const down = signsDown(posting, momentOf(zone, endMs))
  const longer = down.orLabelInterval ? keepOffEnd(record, endMs, parts) : 0
  if (down.kind === 'moment')
    return [{ kind: 'sign-down', untilMs: Math.max(down.atMs, longer), products: [] }]
  // Nobody here knows when the sun sets: the morning after is never too early.
  const opensOn = down.atSunset ? addDays(down.day, 1) : down.day
  const untilMs = Math.max(momentIn(zone, opensOn, '00:00'), endMs, longer)
  return [{ kind: 'sign-down', untilMs, products: [], ...(down.atSunset ? { sunsetOn: down.day } : {}) }]
}

function keepOffEnd(record: ApplicationRecord, endMs: number, { entries, zone }: NoticeParts): number {
  const all = [...entries.flatMap((entry) => labelNotices(entry, endMs, zone)), ...keepOffOf(record)]
  return Math.max(0, ...all.flatMap(({ kind, untilMs }) => (kind === 'keep-off' ? [untilMs ?? 0] : [])))
}

/** The customer's copy, where the state gives a day for it and nobody has sent one. */
function copyNotices(
  record: ApplicationRecord,
  endMs: number,
  { rules, zone }: NoticeParts,
): readonly Notice[] {
  const { copy } = rules.state
  if (copy === null || copy.within.kind === 'unsaid') return []
  if (recorded(record.customerCopy) !== undefined || recorded(record.forHire) === false) return []
  const untilMs =
    copy.within.kind === 'at-completion' ? endMs : endOfDay(daysAfter(endMs, copy.within.days, zone), zone)
  return [{ kind: 'customer-copy', untilMs, products: [] }]
}

function endOfDay(atMs: number, zone: string): number {
  return Math.max(momentIn(zone, dayIn(zone, atMs), '23:59'), atMs)
}

/** The latest end of a wait, the earliest end of a task; drying lasts less long than any hours that stand beside it. */
function strictest(same: readonly Notice[]): readonly Notice[] {
  const [first] = same
  if (first === undefined) return []
  const timed = same.filter(({ untilMs }) => untilMs !== null)
  const pool = timed.length > 0 ? timed : same
  const times = pool.map(({ untilMs }) => untilMs ?? 0)
  const wanted = first.kind === 'water-in' ? Math.min(...times) : Math.max(...times)
  const holding = pool.filter(({ untilMs }) => (untilMs ?? 0) === wanted)
  const [one = first] = holding
  return [{ ...one, products: [...new Set(holding.flatMap(({ products }) => products))] }]
}
