import type { Json } from './canonical.ts'
import { FIELD_LABELS } from './field-labels.ts'
import { fieldIds, fixedIds } from './record.ts'
import { isSealedValue } from './seal.ts'

type JsonObject = { readonly [key: string]: Json }

/** The form of the text. A change to it makes new texts, so it is named in every one. */
const FORM = 'Swardhand application record, form 1'

/**
 * The canonical English text of a record: one line a field, in a fixed order, the same for ever. It is what is hashed,
 * so it never goes through the catalogues. Sealed values show their commitment.
 * @param open the record as it enters the chain
 */
export function recordText(open: Json): string {
  return [FORM, ...linesOf(open, [...fixedIds, ...fieldIds])].join('\n')
}

/** The lines of named values in a given order; a key that is in none of the lists would be lost, so it throws. */
export function linesOf(open: Json, order: readonly string[]): readonly string[] {
  if (typeof open !== 'object' || open === null || Array.isArray(open))
    throw new RangeError('Cannot write a text of what is no record')
  const values = open as JsonObject
  const stray = Object.keys(values).find((key) => values[key] !== undefined && !order.includes(key))
  if (stray !== undefined) throw new RangeError(`Cannot write the field "${stray}", which no record has`)
  return order.flatMap((key) => {
    const value = values[key]
    return value === undefined ? [] : [`${labelOf(key)}: ${textOf(value)}`]
  })
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
  const shape = Object.keys(value as JsonObject)
    .sort()
    .join(' ')
  const special = SPECIAL[shape]
  const plain = special?.(value as JsonObject) ?? null
  return plain ?? objectText(value as JsonObject)
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

function objectText(value: JsonObject): string {
  const parts = Object.entries(value)
    .filter(([, inner]) => inner !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0))
    .map(([key, inner]) => `${spaced(key)} ${textOf(inner)}`)
  return `(${parts.join(', ')})`
}

/** `takenAt` is `taken at`. @throws RangeError for a key that could be taken for something else */
function spaced(key: string): string {
  if (!/^[A-Za-z][A-Za-z0-9]*$/.test(key)) throw new RangeError(`Cannot write a value named "${key}"`)
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
}
