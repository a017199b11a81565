import type { Json } from '#src/record/canonical.ts'
import { isRemoved, recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import type { ProductUsed } from '#src/record/product.ts'
import type { FieldId } from '#src/record/record.ts'
import { printTyped, printValue } from '#src/records/print-value.ts'
import { printAmendment } from './amendments.ts'
import { firstAidOf } from './first-aid.ts'
import type { Reader } from './order.ts'
import { fieldsFor } from './readers.ts'
import type { PaperRead, PaperRecord } from './source.ts'

/** One line of the table: a record and one of its products, or a record without any. */
export interface TableRow {
  readonly record: PaperRecord
  readonly product: ProductUsed | null
  /** Which of the record's products this is, counted from 1; 0 without any. */
  readonly place: number
}

/** A column: its name in the first line, what it means, its unit, and the cell of a line. */
export interface Column {
  readonly name: string
  readonly means: string
  /** What the cell is written in: a unit, a form, or a set of words. */
  readonly unit: string
  readonly cell: (row: TableRow) => string
  /** The field that it shows; a reader who does not get that field does not get the column. */
  readonly field?: FieldId
}

const yesNo = (value: boolean) => (value ? 'yes' : 'no')
const ifRead = (record: PaperRecord, cell: (read: PaperRead) => string) =>
  record.kind === 'read' ? cell(record) : ''

const frame = (name: string, means: string, unit: string, cell: (record: PaperRecord) => string): Column => ({
  name,
  means,
  unit,
  cell: ({ record }) => cell(record),
})

function standingOf(record: PaperRecord): string {
  if (record.kind === 'unreadable') return 'unreadable'
  return record.row.voidedAtMs === null ? 'standing' : 'voided'
}

const head: readonly Column[] = [
  frame('record', 'number of the record', 'R and a number', ({ row }) => recordName(row.number)),
  {
    name: 'product_line',
    means: 'which product of the record this line is about',
    unit: 'counted from 1; 0 without a product',
    cell: ({ place }) => String(place),
  },
  frame(
    'standing',
    'whether the record stands; a voided one stays in the table and in no total',
    'standing, voided, unreadable',
    standingOf,
  ),
  frame('complete', 'whether it holds everything that its rule table asks', 'yes, no', ({ row }) =>
    yesNo(row.complete),
  ),
  frame(
    'missing',
    'what it lacks, and what in it contradicts itself',
    'names, a semicolon between them',
    (one) => ifRead(one, ({ lacks }) => lacks.join('; ')),
  ),
  frame('within_label', 'whether the label allowed it', 'yes, no, unknown', ({ row }) => row.withinLabel),
  frame('late', 'written later than its rule table allows', 'yes, no', ({ row }) => yesNo(row.late)),
  frame('site', 'the crew’s name for the property', 'text', ({ site }) => printTyped(site)),
]

const tail: readonly Column[] = [
  frame('amendments', 'how often the record was amended', 'number', (one) =>
    ifRead(one, ({ amendments }) => String(amendments.length)),
  ),
  frame(
    'amendment_history',
    'every amendment: who, when, why, what stood before and what after',
    'text',
    (one) => ifRead(one, ({ amendments }) => amendments.map(printAmendment).join(' | ')),
  ),
  frame('written_at', 'when the record was written', 'day, hour, time zone', (one) =>
    ifRead(one, ({ original }) => printValue(original.writtenAt as Json)),
  ),
  frame('chain_link', 'number of the record’s first link in the crew’s chain', 'number', ({ links }) =>
    String(links[0]?.seq ?? ''),
  ),
  frame(
    'chain_hash',
    'hash of the record’s newest link',
    'SHA-256 in hex',
    ({ links }) => links.at(-1)?.hash ?? '',
  ),
]

const inspectorOnly: readonly Column[] = [
  frame('written_by', 'who wrote it', 'name', (one) =>
    ifRead(one, ({ original }) =>
      isRemoved(original.writtenBy) ? 'removed' : printTyped(original.writtenBy.name),
    ),
  ),
  frame('written_through', 'by which messenger', 'text', (one) =>
    ifRead(one, ({ original }) => printTyped(original.writtenThrough)),
  ),
  frame('chat_language', 'language of the chat; the record itself is English', 'code', (one) =>
    ifRead(one, ({ original }) => original.chatLanguage),
  ),
  frame('rule_table', 'the table of rules that was asked', 'state or strict', (one) =>
    ifRead(one, ({ original }) => printValue(original.rules as Json)),
  ),
]

/** A field of the record as it stands after its amendments. */
const field = (name: string, id: FieldId, means: string, unit: string): Column => ({
  name,
  means,
  unit,
  field: id,
  cell: ({ record }) =>
    record.kind === 'read' ? printValue(record.current.record[id] as Json | undefined) : '',
})

/** A quantity as two columns: its number, or why there is none, and its unit. */
function measured(name: string, id: FieldId, means: string): readonly Column[] {
  const value = (record: PaperRecord) =>
    record.kind === 'read' ? (record.current.record[id] as Json | undefined) : undefined
  return [
    {
      name,
      means,
      unit: `number, in \`${name}_unit\``,
      field: id,
      cell: ({ record }) => numberOf(value(record)),
    },
    {
      name: `${name}_unit`,
      means: `unit of \`${name}\``,
      unit: 'unit',
      field: id,
      cell: ({ record }) => unitOf(value(record)),
    },
  ]
}

function partsOf(value: Json | undefined): { readonly value: string; readonly unit: string } | null {
  if (typeof value !== 'object' || value === null || !('value' in value) || !('unit' in value)) return null
  return { value: String(value.value), unit: String(value.unit) }
}
const numberOf = (value: Json | undefined) => partsOf(value)?.value ?? printValue(value)
const unitOf = (value: Json | undefined) => partsOf(value)?.unit ?? ''

const used = (
  name: string,
  means: string,
  unit: string,
  cell: (product: ProductUsed, record: PaperRecord) => string,
): Column => ({
  name,
  means,
  unit,
  field: 'products',
  cell: ({ record, product }) => (product === null ? '' : cell(product, record)),
})

const products: readonly Column[] = [
  used('product', 'product by its full name on the label', 'text', ({ name }) => printTyped(name)),
  used('product_form', 'as it comes', 'dry, liquid', ({ form }) => printValue(form as Json | undefined)),
  used('registration', 'federal registration number', 'as on the label', (one) => printRegistration(one)),
  used('state_number', 'registration number of the state', 'as on the label', ({ stateNumber }) =>
    printValue(stateNumber as Json | undefined),
  ),
  used('special_local_need', 'special local need number', 'as on the label', ({ specialLocalNeed }) =>
    printValue(specialLocalNeed as Json | undefined),
  ),
  used('restricted_use', 'restricted use product', 'yes, no', ({ restricted }) =>
    printValue(restricted as Json | undefined),
  ),
  used('label', 'label that was read: version, date, page', 'text', ({ label }) =>
    printValue(label as Json | undefined),
  ),
  used('active_ingredients', 'each with its strength', 'a semicolon between them', ({ actives }) =>
    printValue(actives as Json | undefined),
  ),
  used(
    'rate',
    'rate that was meant, of the product as it comes unless `ai` or `ae` stands behind the unit',
    'as on the label',
    ({ rate }) => printValue(rate as Json | undefined),
  ),
  used(
    'amount',
    'product as it comes that went on this ground; never the mix',
    'number, in `amount_unit`',
    ({ amount }) => numberOf(amount as Json | undefined),
  ),
  used('amount_unit', 'unit of `amount`', 'unit', ({ amount }) => unitOf(amount as Json | undefined)),
]

function printRegistration({ registration, exempt25b }: ProductUsed): string {
  return exempt25b === true ? 'exempt, minimum risk' : printValue(registration as Json | undefined)
}

/** Fields in the order of their columns; products stand between area and method. */
const fields: readonly Column[] = [
  field('date', 'date', 'day of the application', 'YYYY-MM-DD'),
  field('started_at', 'startedAt', 'start', 'day, hour, time zone'),
  field('ended_at', 'endedAt', 'end', 'day, hour, time zone'),
  field('night_work', 'nightWork', 'went on past midnight', 'yes, no'),
  field('for_hire', 'forHire', 'work for hire', 'yes, no'),
  field('customer', 'customerName', 'for whom', 'name'),
  field('customer_address', 'customerAddress', 'address of the customer', 'street, town, state ZIP'),
  field('place_address', 'placeAddress', 'address of the place treated', 'street, town, state ZIP'),
  field('county', 'county', 'county of the place', 'text'),
  field('place_description', 'placeWords', 'where on the property', 'text'),
  field('place_mark', 'placeMark', 'mark on the map', 'latitude, longitude in degrees'),
  field('use', 'use', 'what the ground is used for', 'text'),
  field('kind_of_ground', 'grounds', 'turf or another kind', 'text'),
  field('turf', 'turfs', 'grasses that grow there', 'ids of the plant list'),
  ...measured('treated_area', 'treatedArea', 'area that was treated'),
  field('area_found_by', 'areaBasis', 'how the area is known', 'measured, spot calibration, estimate'),
  field('coverage', 'coverage', 'how much of the lawn', 'whole area, spots, strip'),
  field('treated_before', 'sameGround', 'whether this very ground had been treated before', 'text'),
  field('targets', 'targets', 'weeds it was meant for', 'a semicolon between them'),
  ...products,
  {
    name: 'first_aid',
    means:
      'first aid of the product’s label, from the label book; only in the file for whoever treats somebody',
    unit: 'text',
    cell: ({ record, product }) =>
      product === null ? '' : ifRead(record, (one) => firstAidOf(one, product)),
  },
  field('method', 'method', 'how it was put on', 'text'),
  field('equipment', 'sprayer', 'with which sprayer or spreader', 'text'),
  field('nozzle', 'nozzle', 'nozzle or tip', 'text'),
  ...measured('pressure', 'pressure', 'pressure at the nozzle'),
  field('droplets', 'droplets', 'droplet class', 'class'),
  field('mix_number', 'mixNumber', 'the mix that it was drawn from', 'text'),
  field('mixed_at', 'mixedAt', 'when that was mixed', 'day, hour, time zone'),
  ...measured('mix_made', 'mixMade', 'finished mix that was made'),
  ...measured('mix_drawn', 'mixDrawn', 'finished mix that this site drew from it'),
  field('recipe', 'recipe', 'concentrate and diluent of the whole mix', 'amount in amount'),
  field(
    'site_order',
    'siteOrder',
    'which of the sites sprayed from one tank this one was',
    'number of number',
  ),
  ...measured('leftover', 'leftover', 'mix that was left over'),
  field('leftover_fate', 'leftoverFate', 'what became of it', 'text'),
  field('mixing_place', 'mixingPlace', 'where it was mixed', 'text'),
  field('carrier', 'carrier', 'what it was mixed with', 'water, none, other'),
  ...measured('carrier_amount', 'carrierAmount', 'how much carrier'),
  ...measured('total_mix', 'totalMix', 'finished mix that went on this ground'),
  field('output', 'output', 'finished mix per area', 'volume per area'),
  field('adjuvants', 'adjuvants', 'what else was in it', 'a semicolon between them'),
  field('fertilizer', 'fertilizer', 'fertilizer in the same visit', 'yes, no, number of its own record'),
  field('wind_speed', 'windSpeed', 'wind readings, each with its own hour', 'with unit'),
  field(
    'wind_from',
    'windFrom',
    'where the wind came from, each reading with its hour',
    'eight points, variable',
  ),
  field('temperature', 'temperature', 'air temperature, each reading with its hour', 'with unit'),
  field('humidity', 'humidityPercent', 'relative humidity, each reading with its hour', 'percent'),
  field('sky', 'sky', 'sky, with the hour', 'text'),
  field('soil', 'soil', 'soil, with the hour', 'text'),
  field('rain', 'rain', 'hours since the last rain and until the next, with the hour', 'hours'),
  field('rain_after', 'rainAfter', 'rain after the application', 'text'),
  field('inversion_signs', 'inversion', 'signs of still, layered air that were seen', 'none, or names'),
  field('applicator', 'applicator', 'who applied it', 'name'),
  field('license', 'license', 'license of the applicator', 'number, last day, category'),
  field('supervisor', 'supervisor', 'certified supervisor, with license', 'text'),
  field('helpers', 'helpers', 'who helped', 'names'),
  field('training', 'training', 'training of the helpers', 'text'),
  field('company', 'company', 'company that did the work', 'text'),
  field('company_license', 'companyLicense', 'license of the company', 'number'),
  field('company_address', 'companyAddress', 'address of the company', 'street, town, state ZIP'),
  field('hands_washed', 'handsWashed', 'gloves off and hands washed afterwards', 'yes, no'),
  field('protective_equipment', 'ppe', 'what the label asks to wear, and whether it was worn', 'text'),
  field('keep_off', 'keepOff', 'keep-off text of the label', 'text'),
  field('keep_off_until', 'keepOffUntil', 'until when to keep off', 'day, hour, time zone; until dry'),
  field('customer_told', 'customerTold', 'customer was told', 'yes, no'),
  field('posting', 'posting', 'signs posted, and when', 'yes, no, day and hour'),
  field('notices', 'notices', 'notices given, and when', 'to whom: yes, no'),
  field('customer_copy', 'customerCopy', 'copy to the customer: day and way', 'text'),
  field('consent', 'consent', 'consent to electronic delivery', 'text'),
  field('unusual', 'unusual', 'anything unusual: spill, drift, exposure', 'yes with words, no'),
  field('late_note', 'lateNote', 'note of a supervisor on late writing', 'text'),
  field('notes', 'notes', 'notes', 'text'),
  field('recheck_on', 'recheckOn', 'day of the planned recheck visit', 'YYYY-MM-DD'),
  field('photos', 'photos', 'photos taken with it', 'SHA-256 of each file'),
  field('label_check', 'labelCheck', 'what the label said when it was written', 'product: outcome'),
  field('kept_until', 'keepUntil', 'last day on which the record has to be kept', 'YYYY-MM-DD'),
]

/** The one set of columns. A reader who does not get a field gets the same set without its columns. */
export const columns: readonly Column[] = [...head, ...fields, ...inspectorOnly, ...tail]

/** What the rules say of a record is between the crew and its state. */
const JUDGING = new Set(['complete', 'missing', 'within_label', 'late'])

/** The columns of one reader, in their order. */
export function columnsFor(reader: Reader): readonly Column[] {
  const own = new Set(fieldsFor(reader))
  return columns.filter((column) => {
    if (inspectorOnly.includes(column) || JUDGING.has(column.name)) return reader === 'inspector'
    if (column.name === 'site' || column.name === 'amendment_history') return reader !== 'treating'
    if (column.name === 'first_aid') return reader === 'treating'
    return column.field === undefined || own.has(column.field)
  })
}

/** Lines of the table for one record: one for each product. */
export function tableRows(record: PaperRecord): readonly TableRow[] {
  const inIt = record.kind === 'read' ? (recorded(record.current.record.products) ?? []) : []
  if (inIt.length === 0) return [{ record, product: null, place: 0 }]
  return inIt.map((product, at) => ({ record, product, place: at + 1 }))
}
