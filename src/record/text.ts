import { BoundedMap } from '#src/memory/bounded-map.ts'
import { remember } from '#src/memory/remember.ts'
import type { Json } from './canonical.ts'
import { inOrder } from './canonical.ts'
import { FIELD_LABELS } from './field-labels.ts'
import { fieldIds, fixedIds } from './record.ts'
import { isSealedValue } from './seal.ts'

type JsonObject = { readonly [key: string]: Json }

/** The form of the text. A change to it makes new texts, so it is named in every one. */
const FORM = 'Swardhand application record, form 1'

/** Names in the order of their lines: each with its place, and what its line begins with. */
export type Order = ReadonlyMap<string, { readonly place: number; readonly head: string }>

export function orderOf(names: readonly string[]): Order {
  return new Map(names.map((name, place) => [name, { place, head: `${labelOf(name)}: ` }]))
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
export function linesOf(open: Json, order: Order): readonly string[] {
  if (typeof open !== 'object' || open === null || Array.isArray(open))
    throw new RangeError('Cannot write a text of what is no record')
  const values = open as JsonObject
  const lines = new Array<string | undefined>(order.size)
  for (const name of Object.keys(values)) {
    const value = values[name]
    if (value === undefined) continue
    const known = order.get(name)
    if (known === undefined) throw new RangeError(`Cannot write the field "${name}", which no record has`)
    lines[known.place] = known.head + textOf(value)
  }
  return lines.filter((line) => line !== undefined)
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
  const keys = inOrder(Object.keys(value as JsonObject))
  const special = keys.length > MOST_OF_SPECIAL ? undefined : SPECIAL.get(keys.join(' '))
  const plain = special?.(value as JsonObject) ?? null
  return plain ?? objectText(value as JsonObject, keys)
}

const text = (value: Json | undefined) => (typeof value === 'string' ? value : null)
const PLAIN_NUMBER = /^-?\d+(\.\d+)?$/

/** Shapes that people read easier in another form. Each keeps every part, and no two values look the same. */
const SPECIAL: ReadonlyMap<string, (value: JsonObject) => string | null> = new Map(
  Object.entries({
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
        ? `${text(local)} ${text(zone)} (${isoOf(atMs)})`
        : null,
  }),
)

/** One record names the same moment again and again: a reading is taken when the work begins. */
const MOST_MOMENTS = 16
const known = new BoundedMap<number, string>(MOST_MOMENTS)

function isoOf(atMs: number): string {
  const before = known.get(atMs)
  if (before !== undefined) return before
  const written = new Date(atMs).toISOString()
  known.set(atMs, written)
  return written
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

/** Keys of all that stands in records; what somebody put into a store by hand has others, and is forgotten again. */
const MOST_KEYS = 500

/** `takenAt` is `taken at`. @throws RangeError for a key that could be taken for something else */
const spaced = remember((key) => {
  if (!/^[A-Za-z][A-Za-z0-9]*$/.test(key)) throw new RangeError(`Cannot write a value named "${key}"`)
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
}, MOST_KEYS)
