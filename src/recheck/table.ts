import { z } from 'zod'

/** Groups of plants as the key's table names them. */
export const PlantGroup = z.enum(['grass', 'sedge', 'rush', 'broadleaf', 'other-monocot'])
export type PlantGroup = z.infer<typeof PlantGroup>

/** Life cycles as the key's table names them; a plant may have several. */
export const Lifecycle = z.enum(['annual', 'summer-annual', 'winter-annual', 'biennial', 'perennial'])
export type Lifecycle = z.infer<typeof Lifecycle>

/**
 * What a look is for. `signs`: turf injury and first signs, never a decision; `score`: percent control; `decide`: regrowth
 * and the second application; `after`: whether it lasts; `identify`: a plant that could not be named earlier.
 */
export const Purpose = z.enum(['signs', 'score', 'decide', 'after', 'identify'])
export type Purpose = z.infer<typeof Purpose>

/** What to look for; the words are `recheck.look-for-<id>`. */
export const LookFor = z.enum([
  'turf-injury',
  'untreated-spot',
  'twisting',
  'newest-leaf',
  'browning',
  'control',
  'new-shoots',
  'seedlings',
  'green-up',
  'seed-head',
])
export type LookFor = z.infer<typeof LookFor>

const Id = z.string().regex(/^[a-z]+(-[a-z0-9]+)*$/)
const DayCount = z.int().min(1).max(400)
const MonthDay = z
  .string()
  .regex(/^(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/, 'a day of the year such as 09-01')
/** Who says so, spelled out; or `common practice, no source`. */
const Source = z.string().min(8)

/** Days after the application, both ends in. */
const Span = { fromDay: DayCount, toDay: DayCount }
const Shared = { id: Id, lookFor: z.array(LookFor).min(1), source: Source }

export const LookRow = z
  .strictObject({ ...Shared, purpose: Purpose, ...Span })
  .refine(({ fromDay, toDay }) => fromDay <= toDay, 'a window ends before it begins')
export type LookRow = z.infer<typeof LookRow>

/** A look beside the three usual ones: on days counted, again and again, at a time of year, or before seeding. */
export const ExtraLook = z.discriminatedUnion('when', [
  z.strictObject({ ...Shared, when: z.literal('days'), ...Span }),
  z.strictObject({
    ...Shared,
    when: z.literal('repeat'),
    everyDays: DayCount,
    spanDays: DayCount,
    until: MonthDay,
  }),
  z.strictObject({
    ...Shared,
    when: z.literal('season'),
    from: MonthDay,
    to: MonthDay,
    /** Only when it was treated on this day of the year or later. */
    treatedFrom: MonthDay.exactOptional(),
  }),
  z.strictObject({ ...Shared, when: z.literal('before-seeding'), daysBefore: DayCount }),
])
export type ExtraLook = z.infer<typeof ExtraLook>

/** The looks after one kind of treatment. Whatever is not named fits every plant. */
export const ScheduleRow = z
  .strictObject({
    id: Id,
    groups: z.array(PlantGroup).min(1).exactOptional(),
    /** `annual` fits plants that are never perennial; a plant that may be either counts as the slower perennial. */
    lifecycle: z.enum(['annual', 'perennial']).exactOptional(),
    /** How the product works, where a lead has said so. */
    action: z.enum(['contact', 'systemic']).exactOptional(),
    nonSelective: z.literal(true).exactOptional(),
    /** From this day on the result can be judged. */
    judgeFromDay: DayCount,
    judgeSource: Source,
    /** As many as a form has fields. */
    looks: z.array(LookRow).min(2).max(5),
    extras: z.array(ExtraLook).max(4),
  })
  .superRefine((row, context) => {
    const complain = (message: string) =>
      context.addIssue({ code: 'custom', message: `${row.id}: ${message}` })
    row.looks.forEach((look, at) => {
      const before = row.looks[at - 1]
      if (before !== undefined && before.toDay >= look.fromDay)
        complain('windows overlap or stand out of order')
    })
    if (row.looks[0]?.purpose !== 'signs') complain('the first look is for signs')
    if (row.looks.filter(({ purpose }) => purpose === 'decide').length !== 1) complain('one look decides')
    const decides = row.looks.find(({ purpose }) => purpose === 'decide')
    if (decides !== undefined && decides.toDay < row.judgeFromDay)
      complain('the deciding look is too early to judge')
    const ids = [...row.looks, ...row.extras].map(({ id }) => id)
    if (new Set(ids).size !== ids.length) complain('two looks share an id')
  })
export type ScheduleRow = z.infer<typeof ScheduleRow>

/** Rows from the special to the general: the first that fits is taken, and the last fits everything. */
export const ScheduleTable = z
  .array(ScheduleRow)
  .min(1)
  .refine((rows) => new Set(rows.map(({ id }) => id)).size === rows.length, 'two rows share an id')
  .refine((rows) => rows.at(-1) !== undefined && fitsAll(rows.at(-1)), 'the last row fits everything')
export type ScheduleTable = z.infer<typeof ScheduleTable>

function fitsAll(row: ScheduleRow | undefined): boolean {
  return (
    row?.groups === undefined &&
    row?.lifecycle === undefined &&
    row?.action === undefined &&
    row?.nonSelective === undefined
  )
}

/** What was treated with what, as far as the schedule depends on it. */
export interface Treated {
  readonly group: PlantGroup | 'unknown'
  /** Every life cycle of the plant; none when nobody knows. */
  readonly lifecycles: readonly Lifecycle[]
  readonly nonSelective?: boolean
  readonly action?: 'contact' | 'systemic'
}

/** The row for a treated plant. */
export function findRow(table: ScheduleTable, treated: Treated): ScheduleRow {
  const found = table.find((row) => fits(row, treated))
  if (found === undefined)
    throw new RangeError('Cannot find a schedule: the table has no row that fits everything')
  return found
}

function fits(row: ScheduleRow, { group, lifecycles, nonSelective = false, action }: Treated): boolean {
  const isAnnual = lifecycles.length > 0 && !lifecycles.includes('perennial')
  if (row.nonSelective === true && !nonSelective) return false
  if (row.action !== undefined && row.action !== action) return false
  if (row.groups !== undefined && (group === 'unknown' || !row.groups.includes(group))) return false
  return row.lifecycle === undefined || (row.lifecycle === 'annual') === isAnnual
}
