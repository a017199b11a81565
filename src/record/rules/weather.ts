import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { compareQuantities } from '#src/quantity/quantity.ts'
import { holds } from '../conditions.ts'
import { recorded } from '../not-recorded.ts'
import { labelFindings } from './label.ts'
import type { Finding, RecordContext, RecordRule } from './rule.ts'
import { finding, lacking } from './rule.ts'

/** What no thermometer and no wind meter of a crew shows (proposal of this project). */
const RANGE = {
  wind: { least: { value: '0', unit: 'mph' }, most: { value: '60', unit: 'mph' } },
  temperature: { least: { value: '-10', unit: 'F' }, most: { value: '120', unit: 'F' } },
} as const

const entriesOf = ({ book }: RecordContext) => book.map(({ entry }) => entry)

/** Nobody asks for it, and it is still worth having: a warning, outdoors only. */
function advised(record: Parameters<RecordRule['check']>[0], context: RecordContext, text: Text): Finding[] {
  const isOutdoors = holds('outdoors', { draft: record, entries: entriesOf(context) })
  return isOutdoors ? [finding('V23', text, { weight: 'warn', fields: ['windSpeed', 'windFrom'] })] : []
}

export const v23: RecordRule = {
  id: 'V23',
  source:
    '4 Texas Administrative Code 7.33; Minnesota Statutes 18B.37; New South Wales Pesticides Regulation 2017 cl. 36',
  check(record, context) {
    const absent = lacking('V23', ['wind-speed', 'wind-from'], record, context)
    const label = labelFindings('V23', ['too-windy', 'too-calm'], context, ['windSpeed'])
    const isSilent = record.windSpeed === undefined && absent.length === 0
    return [...absent, ...label, ...(isSilent ? advised(record, context, say('record.v23-advised')) : [])]
  },
}

export const v24: RecordRule = {
  id: 'V24',
  source: '4 Texas Administrative Code 7.33; Minnesota Statutes 18B.37',
  check: (record, context) => [
    ...lacking('V24', ['temperature'], record, context),
    ...labelFindings('V24', ['too-hot', 'too-cold'], context, ['temperature']),
  ],
}

export const v25: RecordRule = {
  id: 'V25',
  source:
    'Ranges: proposal of this project; still air and inversions: Pesticide Environmental Stewardship, Evaluate the Weather Conditions',
  check: (record, context) => [
    ...lacking('V25', ['inversion'], record, context),
    ...(recorded(record.windSpeed) ?? []).flatMap(({ value }) =>
      outside(value, RANGE.wind, say('record.v25-wind', { value, ...RANGE.wind }), 'windSpeed'),
    ),
    ...(recorded(record.temperature) ?? []).flatMap(({ value }) =>
      outside(
        value,
        RANGE.temperature,
        say('record.v25-temperature', { value, ...RANGE.temperature }),
        'temperature',
      ),
    ),
    ...seenInversion(record),
  ],
}

function outside(
  value: Quantity,
  { least, most }: { readonly least: Quantity; readonly most: Quantity },
  text: Text,
  field: string,
): Finding[] {
  const isInside = compareQuantities(value, least) >= 0 && compareQuantities(value, most) <= 0
  return isInside ? [] : [finding('V25', text, { fields: [field] })]
}

function seenInversion(record: Parameters<RecordRule['check']>[0]): Finding[] {
  const signs = recorded(record.inversion) ?? []
  if (signs.length === 0) return []
  const all = signs.map((sign) => say(`record.sign.${sign}`))
  return [finding('V25', say('record.v25-inversion', { signs: { all } }), { weight: 'warn', about: 'label' })]
}

export const v26: RecordRule = {
  id: 'V26',
  source: 'New South Wales Pesticides Regulation 2017 cl. 36: the weather that the label names',
  check: (record, context) => [
    ...lacking('V26', ['rain', 'humidity'], record, context),
    ...labelFindings('V26', ['rain-too-soon'], context, ['rain']),
  ],
}
