import type { Json } from '#src/record/canonical.ts'
import { stripUnseen } from '#src/words/clean.ts'

type Values = Readonly<Record<string, Json>>

/** Letters, digits and signs that are seen, with one blank between words: nearly all that a record holds, and nothing to change. */
const PLAIN = /^[!-~¡-¬®-ſ]+(?: [!-~¡-¬®-ſ]+)*$/

/** What somebody typed, on one line and without what cannot be seen: it passes itself off as nothing else. */
export function printTyped(typed: string): string {
  if (PLAIN.test(typed)) return typed
  return stripUnseen(typed)
    .replace(/\s*[\n\r\u2028\u2029]\s*/g, ' / ')
    .replace(/\t/g, ' ')
    .trim()
}

/**
 * A value of a record in one line of plain English, for papers and for reading. Figures stand as they were kept, never
 * rounded. Empty for what was never asked; "not recorded" and "removed" say so.
 */
export function printValue(value: Json | undefined): string {
  if (value === undefined || value === null) return ''
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'number') return String(value)
  if (typeof value === 'string') return printTyped(value)
  if (Array.isArray(value)) return value.length === 0 ? 'none' : value.map(printValue).join('; ')
  const values = value as Values
  const shape = shapeOf(values)
  return shape === undefined ? printParts(values) : shape.print(values)
}

/** Any object by the names of its parts: `given yes, how written`. */
function printParts(values: Values): string {
  return Object.entries(values)
    .filter(([name]) => !IDS.has(name))
    .map(([name, inner]) => `${spaced(name)} ${printValue(inner)}`)
    .join(', ')
}

/** Numbers of the crew's own store say nothing to a reader of a paper. */
const IDS = new Set(['id', 'entryId', 'revisionId', 'siteId', 'areaId', 'incidentId'])

const spaced = (name: string) => name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)

const also = (values: Values, name: string, before: string, after = '') => {
  const printed = printValue(values[name])
  return printed === '' ? '' : `${before}${printed}${after}`
}

const perOf = (values: Values) => {
  const per = values.per as Values
  return per.value === '1' ? printValue(per.unit) : `${printValue(per.value)} ${printValue(per.unit)}`
}

interface Shape {
  readonly keys: readonly string[]
  readonly print: (values: Values) => string
}

/** Shapes by the keys that make them, the most particular first. */
const SHAPES: readonly Shape[] = [
  { keys: ['notRecorded'], print: () => 'not recorded' },
  { keys: ['removed'], print: () => 'removed' },
  { keys: ['withheld'], print: () => 'withheld' },
  { keys: ['none'], print: () => 'none held' },
  { keys: ['untilDry'], print: () => 'until dry' },
  { keys: ['value', 'unit', 'basis'], print: (one) => `${printValue(one.value)} % ${printValue(one.basis)}` },
  {
    keys: ['value', 'unit', 'per'],
    print: (one) => {
      const counted = one.of === undefined || one.of === 'product' ? '' : ` ${printValue(one.of)}`
      return `${printValue(one.value)} ${printValue(one.unit)}${counted}/${perOf(one)}`
    },
  },
  { keys: ['value', 'takenAt'], print: (one) => `${printValue(one.value)} at ${clock(one.takenAt)}` },
  { keys: ['value', 'unit'], print: (one) => `${printValue(one.value)} ${printValue(one.unit)}` },
  {
    keys: ['atMs', 'local', 'zone'],
    print: (one) => `${printValue(one.local)} ${printValue(one.zone)}`,
  },
  {
    keys: ['words', 'language'],
    print: (one) => `${printValue(one.words)}${also(one, 'english', ' [in English: ', ']')}`,
  },
  { keys: ['by', 'words'], print: (one) => `${printValue(one.words)} (${printValue(one.by)})` },
  {
    keys: ['name', 'license'],
    print: (one) => `${printValue(one.name)}, license ${printValue(one.license)}`,
  },
  { keys: ['name', 'amount'], print: (one) => `${printValue(one.name)} ${printValue(one.amount)}` },
  {
    keys: ['name', 'strength'],
    print: (one) => `${printValue(one.name)} ${printValue(one.strength)}`,
  },
  { keys: ['product', 'outcome'], print: (one) => `${printValue(one.product)}: ${printValue(one.outcome)}` },
  {
    keys: ['version', 'date'],
    print: (one) => `${printValue(one.version)} of ${printValue(one.date)}${also(one, 'page', ', page ')}`,
  },
  {
    keys: ['street', 'town', 'state'],
    print: (one) =>
      `${printValue(one.street)}, ${printValue(one.town)}, ${printValue(one.state)}${also(one, 'zip', ' ')}`,
  },
  { keys: ['place', 'of'], print: (one) => `${printValue(one.place)} of ${printValue(one.of)}` },
  {
    keys: ['concentrate', 'diluent'],
    print: (one) => `${printValue(one.concentrate)} in ${printValue(one.diluent)}`,
  },
  { keys: ['happened'], print: (one) => printValue(one.happened) + also(one, 'words', ': ') },
  { keys: ['kind'], print: (one) => printValue(one.kind) + also(one, 'words', ' (', ')') },
  { keys: ['fate'], print: (one) => printValue(one.fate) + also(one, 'words', ' (', ')') },
  {
    keys: ['to', 'done'],
    print: (one) => `${printValue(one.to)}: ${printValue(one.done)}${also(one, 'at', ', ')}`,
  },
  { keys: ['done'], print: (one) => printValue(one.done) + also(one, 'at', ', ') },
  {
    keys: ['text', 'confirmed'],
    print: (one) => `${printValue(one.text)} (worn: ${printValue(one.confirmed)})`,
  },
  { keys: ['table'], print: (one) => printValue(one.table) },
  { keys: ['words', 'taxon'], print: (one) => `${printValue(one.words)} (${printValue(one.taxon)})` },
  { keys: ['words'], print: (one) => printValue(one.words) },
  {
    keys: ['number'],
    print: (one) =>
      printValue(one.number) + also(one, 'expiresOn', ', expires ') + also(one, 'category', ', '),
  },
  { keys: ['name'], print: (one) => printValue(one.name) },
  {
    keys: ['applied'],
    print: (one) => printValue(one.applied) + also(one, 'ownRecord', ', record '),
  },
]

/** Shapes by the first of their keys, with their places among all. */
const BY_FIRST_KEY = new Map<string, (Shape & { readonly at: number })[]>()
for (const [at, shape] of SHAPES.entries()) {
  const [first = ''] = shape.keys
  BY_FIRST_KEY.set(first, [...(BY_FIRST_KEY.get(first) ?? []), { ...shape, at }])
}

/** The most particular shape that these values have. */
function shapeOf(values: Values): Shape | undefined {
  let best: (Shape & { readonly at: number }) | undefined
  for (const key of Object.keys(values))
    for (const shape of BY_FIRST_KEY.get(key) ?? [])
      if ((best === undefined || shape.at < best.at) && hasAll(values, shape.keys)) best = shape
  return best
}

function hasAll(values: Values, keys: readonly string[]): boolean {
  for (const key of keys) if (!Object.hasOwn(values, key)) return false
  return true
}

/** The hour of a moment, with its day beside it. */
function clock(moment: Json | undefined): string {
  const local = typeof moment === 'object' && moment !== null ? (moment as Values).local : undefined
  return printValue(local)
}
