import { say } from '#src/conversation/text.ts'
import type { ReasonId } from '#src/label/ids.ts'
import type { Reason } from '#src/label/verdict.ts'
import { sayReason } from '#src/label/words.ts'
import type { ElementId } from '../element-ids.ts'
import { recorded } from '../not-recorded.ts'
import type { RecordDraft } from '../record.ts'
import type { Finding, RecordContext, RecordRule, RuleId } from './rule.ts'
import { finding, lacking } from './rule.ts'

const DIRECTIONS = 'EPA Label Review Manual ch. 11, Directions for Use (Dec 2014)'
/** The sentence that repeats the verdict; a lifted hold must not count against a record a second time. */
export const LABEL_SAYS = 'record.label-says'

const DEVIATIONS =
  'University of Florida, FIFRA 2(ee) and supplemental labels (Oct 2006); Washington Administrative Code 16-228-1225'

/** What the label said that belongs to one rule: a refusal, hold or question is a problem, a heads-up a warning. */
export function labelFindings(
  rule: RuleId,
  ids: readonly ReasonId[],
  { verdicts }: RecordContext,
  fields: readonly string[],
): Finding[] {
  const mine = new Set(ids.map((id) => `label.${id}`))
  return [...verdicts].flatMap(([product, { reasons }]) =>
    reasons
      .filter(({ id, outcome }) => mine.has(id) && outcome !== 'answer')
      .map((reason) => {
        const text = say(LABEL_SAYS, { product, what: sayReason(reason) })
        return finding(rule, text, { weight: weightOf(reason), about: 'label', fields })
      }),
  )
}

function weightOf({ outcome }: Reason): Finding['weight'] {
  return outcome === 'heads-up' ? 'warn' : 'problem'
}

interface LabelRule {
  readonly id: RuleId
  readonly source: string
  readonly reasons: readonly ReasonId[]
  readonly fields: readonly string[]
  readonly elements?: readonly ElementId[]
}

function byLabel({ id, source, reasons, fields, elements = [] }: LabelRule): RecordRule {
  return {
    id,
    source,
    check: (record, context) => [
      ...lacking(id, elements, record, context),
      ...labelFindings(id, reasons, context, fields),
    ],
  }
}

export const v9 = byLabel({
  id: 'V9',
  source: `${DIRECTIONS}; ${DEVIATIONS}`,
  reasons: [
    'turf-unknown',
    'turf-split',
    'turf-excluded',
    'turf-not-listed',
    'turf-not-on-line',
    'dormant-only',
    'dormant-unknown',
    'new-seed-days',
    'new-seed-mowings',
    'new-seed-mowings-unknown',
    'new-sod-days',
    'new-sod-mowings',
    'new-sod-mowings-unknown',
    'season-not-listed',
    'not-registered-in-state',
  ],
  fields: ['site'],
  elements: ['site'],
})

const UNKNOWN = /^(unknown|don'?t know|no idea|not sure|weeds?|\?+|-+|n\/?a|desconocid[oa]|no s[eé])\.?$/i

const listed = byLabel({
  id: 'V10',
  source: '',
  reasons: ['weed-not-listed', 'weed-only-listed', 'weed-refused-in-state'],
  fields: ['targets'],
  elements: ['target'],
})

export const v10: RecordRule = {
  id: 'V10',
  source:
    '4 Texas Administrative Code 7.33; Georgia Rules 40-21-5; Cornell crop and pest guides 2024, Check label for site and pest (New York)',
  check: (record, context) => [...listed.check(record, context), ...unknownTargets(record)],
}

function unknownTargets(record: RecordDraft): Finding[] {
  const targets = recorded(record.targets) ?? []
  const unknown = targets.filter(({ words, taxon }) => taxon === undefined && UNKNOWN.test(words.trim()))
  return unknown.map(({ words }) =>
    finding('V10', say('record.v10-unknown', { words }), { about: 'label', fields: ['targets'] }),
  )
}

export const v11 = byLabel({
  id: 'V11',
  source: `${DIRECTIONS}; ${DEVIATIONS}`,
  reasons: ['above-maximum', 'above-application', 'pair-disagrees', 'cannot-compare', 'figure-needed'],
  fields: ['rate', 'amount', 'treatedArea'],
})

export const v12 = byLabel({
  id: 'V12',
  source: DEVIATIONS,
  reasons: ['below-lowest', 'less-forbidden', 'less-refused-in-state'],
  fields: ['rate', 'amount', 'treatedArea'],
})

export const v13 = byLabel({
  id: 'V13',
  source: DIRECTIONS,
  reasons: ['above-year', 'year-used-up', 'amount-unknown', 'year-nearly'],
  fields: ['rate', 'amount', 'treatedArea'],
})

export const v14 = byLabel({
  id: 'V14',
  source: `${DIRECTIONS}; Pacific Northwest Weed Handbook, nutsedge and perennial grasses in turf`,
  reasons: ['interval', 'treatments-used-up', 'first-line-again', 'treatment-not-listed'],
  fields: ['date', 'sameGround'],
})

export const v15 = byLabel({
  id: 'V15',
  source: DIRECTIONS,
  reasons: ['below-output'],
  fields: ['totalMix', 'treatedArea'],
})
