import { say } from '#src/conversation/text.ts'
import { addDays } from '#src/label/day.ts'
import { holds } from '../conditions.ts'
import { keepUntil } from '../keep.ts'
import { recorded } from '../not-recorded.ts'
import type { RecordDraft } from '../record.ts'
import type { FreeText } from '../values.ts'
import type { Finding, RecordRule } from './rule.ts'
import { finding, productsOf } from './rule.ts'

/** Every text that somebody typed, with the field that it stands in. */
export function freeTextsOf(
  record: RecordDraft,
): readonly { readonly field: string; readonly text: FreeText }[] {
  return Object.entries(record).flatMap(([field, value]) => textsIn(value).map((text) => ({ field, text })))
}

function textsIn(value: unknown): readonly FreeText[] {
  if (Array.isArray(value)) return value.flatMap(textsIn)
  if (typeof value !== 'object' || value === null) return []
  return isFreeText(value) ? [value] : Object.values(value).flatMap(textsIn)
}

function isFreeText(value: object): value is FreeText {
  return 'words' in value && typeof value.words === 'string' && 'language' in value
}

export const v40: RecordRule = {
  id: 'V40',
  source: 'Ohio Administrative Code 901:5-11-10: recorded in English',
  check(record, { rules }) {
    return freeTextsOf(record)
      .filter(({ text }) => !text.language.startsWith('en') && text.english === undefined)
      .map(({ field, text }) =>
        finding('V40', say('record.v40-english', { words: text.words }), {
          weight: rules.state.language === null ? 'warn' : 'problem',
          fields: [field],
        }),
      )
  },
}

export const v43: RecordRule = {
  id: 'V43',
  source:
    'Washington State Department of Agriculture, Recordkeeping (7 years); New York 33-1205 (3); Texas 7.33 (2); Minnesota 18B.37 (5)',
  check(record, context) {
    const date = recorded(record.date)
    if (date === undefined) return []
    const entries = productsOf(record, context).flatMap(({ booked }) => booked?.entry ?? [])
    const until = keepUntil(date, context.rules, {
      restricted: holds('restricted', { draft: record, entries }),
      crewYears: context.settings.keepYears,
    })
    const kept = recorded(record.keepUntil)
    if (kept !== undefined && kept >= until) return []
    return [finding('V43', say('record.v43-keep', { until: { day: until } }), { fields: ['keepUntil'] })]
  },
}

export const v48: RecordRule = {
  id: 'V48',
  source: 'EPA Label Review Manual ch. 11, Directions for Use (Dec 2014): how often',
  check(record, context) {
    const date = recorded(record.date)
    const look = recorded(record.recheckOn)
    if (date === undefined || look === undefined) return []
    return productsOf(record, context).flatMap(({ product, booked }): Finding[] => {
      const days = (booked?.entry.limits.interval ?? []).map((limit) => limit.days)
      if (days.length === 0) return []
      const open = addDays(date, Math.max(...days))
      if (look >= open) return []
      const figures = { product: product.name, look: { day: look }, open: { day: open } }
      return [finding('V48', say('record.v48-look-only', figures), { weight: 'warn', fields: ['recheckOn'] })]
    })
  },
}
