import type { Json } from './canonical.ts'
import { FIELD_LABELS } from './field-labels.ts'
import { fieldIds, fixedIds } from './record.ts'
import { isSealedValue } from './seal.ts'

type JsonObject = { readonly [key: string]: Json }

/** The form of the text. A change to it makes new texts, so it is named in every one. */
const FORM = 'Swardhand application record, form 1'

/** Names in the order of their lines. */
export interface Order {
  readonly names: readonly string[]
  readonly has: ReadonlySet<string>
}

export function orderOf(names: readonly string[]): Order {
  return { names, has: new Set(names) }
}

const RECORD_ORDER = orderOf([...fixedIds, ...fieldIds])

/**
 * The canonical English text of a record: one line a field, in a fixed order, the same for ever. It is what is hashed,
 * so it never goes through the catalogues. Sealed values show their commitment.
 * @param open the record as it enters the chain
 */
export function recordText(open: Json): string {
  return [FORM, ...linesOf(open, RECORD_ORDER)].join('\n')
}

/** The lines of named values in a given order; a key that is in none of the lists would be lost, so it throws. */
export function linesOf(open: Json, { names, has }: Order): readonly string[] {
  if (typeof open !== 'object' || open === null || Array.isArray(open))
    throw new RangeError('Cannot write a text of what is no record')
  const values = open as JsonObject
  const stray = Object.keys(values).find((key) => values[key] !== undefined && !has.has(key))
  if (stray !== undefined) throw new RangeError(`Cannot write the field "${stray}", which no record has`)
  const lines: string[] = []
  for (const name of names) {
    const value = values[name]
    if (value !== undefined) lines.push(`${labelOf(name)}: ${textOf(value)}`)
  }
  return lines
}

export function labelOf(field: string): string {
  return FIELD_LABELS[field] ?? field
}

/** Any value in one line: typed words in quotes, so that nothing that somebody types looks like a part of the form. */
export function textOf(value: Json): string {
  if (value === null) return 'nothing'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'number') return String(value)
  if (typeof value === 'string') return JSON.stringify(value)
  if (Array.isArray(value)) return value.length === 0 ? 'none' : `[${value.map(textOf).join('; ')}]`
  if (isSealedValue(value)) return `sealed ${value.sealed}`
  const keys = sorted(Object.keys(value as JsonObject))
  const special = keys.length > MOST_OF_SPECIAL ? undefined : SPECIAL[keys.join(' ')]
  const plain = special?.(value as JsonObject) ?? null
  return plain ?? objectText(value as JsonObject, keys)
}

/** By their code units. What was kept stands in this order already. */
function sorted(keys: string[]): readonly string[] {
  for (let at = 1; at < keys.length; at += 1) if ((keys[at - 1] ?? '') > (keys[at] ?? '')) return keys.sort()
  return keys
}

const text = (value: Json | undefined) => (typeof value === 'string' ? value : null)
const PLAIN_NUMBER = /^-?\d+(\.\d+)?$/

/** Shapes that people read easier in another form. Each keeps every part, and no two values look the same. */
const SPECIAL: Readonly<Record<string, (value: JsonObject) => string | null>> = {
  notRecorded: () => 'not recorded',
  removed: () => 'removed',
  none: () => 'none held',
  untilDry: () => 'until dry',
  'unit value': ({ value, unit }) => {
    const [number, sign] = [text(value), text(unit)]
    return number !== null && sign !== null && PLAIN_NUMBER.test(number) && /^[A-Za-z0-9 %/]+$/.test(sign)
      ? `${number} ${sign}`
      : null
  },
  'atMs local zone': ({ atMs, local, zone }) =>
    text(local) !== null && text(zone) !== null && typeof atMs === 'number'
      ? `${text(local)} ${text(zone)} (${new Date(atMs).toISOString()})`
      : null,
}

/** Keys of the longest of them. */
const MOST_OF_SPECIAL = 3

function objectText(value: JsonObject, keys: readonly string[]): string {
  let parts = ''
  for (const key of keys) {
    const inner = value[key]
    if (inner !== undefined) parts += `${parts === '' ? '' : ', '}${spaced(key)} ${textOf(inner)}`
  }
  return `(${parts})`
}

/** `takenAt` is `taken at`. @throws RangeError for a key that could be taken for something else */
function spaced(key: string): string {
  if (/^[a-z]+$/.test(key)) return key
  if (!/^[A-Za-z][A-Za-z0-9]*$/.test(key)) throw new RangeError(`Cannot write a value named "${key}"`)
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
}
