import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { Day } from '#src/label/day.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { Verdict } from '#src/label/verdict.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { sayElement } from '../complete.ts'
import type { ElementId } from '../element-ids.ts'
import { standingOf } from '../elements.ts'
import { needsOf } from '../needs.ts'
import { recorded } from '../not-recorded.ts'
import type { ProductUsed } from '../product.ts'
import type { RecordDraft } from '../record.ts'
import type { RuleSet } from '../rule-set.ts'
import { stepAsking } from '../step-list.ts'
import type { Moment } from '../values.ts'

/** Rules of a record by their published numbers; what is not here belongs to another part. */
export type RuleId = `V${number}`

/** What a finding is about: the record itself, what the label allows, the day of writing, or what the customer gets. */
export type About = 'complete' | 'label' | 'time' | 'customer'

/** A problem stands in the way of what it is about; a warning does not. */
export interface Finding {
  readonly rule: RuleId
  readonly weight: 'problem' | 'warn'
  readonly about: About
  readonly text: Text
  /** Fields that the finding is about, for the form that corrects them. */
  readonly fields: readonly string[]
  /** The element that is lacking, where that is all. */
  readonly element?: ElementId
}

/** An entry of the label book, with the day on which somebody last held it against the label. */
export interface BookEntry {
  readonly entry: LabelEntry
  readonly lastConfirmedOn: Day | null
}

/** The crew's own figures. None is a limit of a product. */
export interface RecordSettings {
  /** Share by which amount and rate may differ before somebody has to say why. */
  readonly amountShare: string
  /** Share by which a treated area may be larger than the property as it is drawn. */
  readonly propertyShare: string
  /** Days after which a late record needs a supervisor's note. */
  readonly noteAfterDays: number
  /** Days after which a label fact should have been held against the label again. */
  readonly labelFactDays: number
  /** Years for which the crew keeps its records. */
  readonly keepYears: number
  /** Categories of a license that cover turf, as the state calls them; empty when nobody has said. */
  readonly turfCategories: readonly string[]
}

/**
 * Proposals of this project: 5 % between amount and rate, a tenth above the drawn property, twelve months for a label
 * fact, seven years. The 14 days are those of the former federal rule (Iowa State University Extension, Pesticide
 * Recordkeeping Law Amended, 12 May 1995).
 */
export const recordDefaults: RecordSettings = {
  amountShare: '0.05',
  propertyShare: '0.1',
  noteAfterDays: 14,
  labelFactDays: 365,
  keepYears: 7,
  turfCategories: [],
}

/** What is known beside the record. Whatever is left out is not known, and no rule guesses it. */
export interface RecordContext {
  readonly now: Moment
  /** When the record was written; for a draft, now. */
  readonly writtenAt: Moment
  readonly rules: RuleSet
  readonly settings: RecordSettings
  readonly book: readonly BookEntry[]
  /** What the label says to each product as it was used, by name. */
  readonly verdicts: ReadonlyMap<string, Verdict>
  /** The whole property, in square feet as decimal text. */
  readonly propertyFt2?: string
  /** Ground that this crew spot-treated with the same products elsewhere on that day, in square feet. */
  readonly spotFt2Elsewhere?: string
  /** What other records drew from the same mix, and how many sites it served with this one. */
  readonly drawnElsewhere?: Quantity
  readonly sitesOfMix?: number
}

export interface RecordRule {
  readonly id: RuleId
  /** Where the rule comes from, spelled out. */
  readonly source: string
  readonly check: (record: RecordDraft, context: RecordContext) => readonly Finding[]
}

type Parts = Partial<Pick<Finding, 'weight' | 'about' | 'fields'>>

/** A problem of the record itself unless told otherwise. */
export function finding(rule: RuleId, text: Text, parts: Parts = {}): Finding {
  return { rule, weight: 'problem', about: 'complete', fields: [], ...parts, text }
}

/** Those of the elements that this record needs and does not hold. */
export function lacking(
  rule: RuleId,
  elements: readonly ElementId[],
  record: RecordDraft,
  { rules, book }: RecordContext,
): Finding[] {
  const entries = book.map(({ entry }) => entry)
  const needed = new Set(needsOf(record, rules, entries).map(({ element }) => element))
  return elements.flatMap((element) => {
    const standing = needed.has(element) ? standingOf(element, record) : 'there'
    if (standing === 'there') return []
    const what = sayElement(element)
    const text = standing === 'absent' ? say('record.missing', { what }) : say('record.not-known', { what })
    return [{ ...finding(rule, text, { fields: [stepAsking(element).field] }), element }]
  })
}

/** Every product of the tank with its entry of the label book, where there is one. */
export function productsOf(
  record: RecordDraft,
  { book }: RecordContext,
): readonly { readonly product: ProductUsed; readonly booked: BookEntry | undefined }[] {
  return (recorded(record.products) ?? []).map((product) => ({
    product,
    booked: book.find(({ entry }) => entry.name === product.name),
  }))
}
