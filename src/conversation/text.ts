import { z } from 'zod'

/** A value inside a sentence. Plain data, so that the same sentence can be said in any language, at any time. */
export type Param =
  | string
  | number
  | { readonly value: string; readonly unit: string }
  | { readonly atMs: number; readonly zone: string; readonly style: 'date' | 'time' | 'date-time' }
  | { readonly day: string }
  | { readonly all: readonly Param[]; readonly join?: 'and' | 'or' | 'lines' }
  | { readonly literal: string }
  | Text

/**
 * A sentence by its id in the catalogue. A plain string parameter is what somebody typed: it is escaped by every
 * messenger. `literal` is text of our own that may not be escaped (a typed command to copy).
 */
export interface Text {
  readonly say: string
  readonly with?: Readonly<Record<string, Param>>
}

/** Looked at by hand: a union tries every member, and this is the most of what every answer is made of. */
function isParam(value: unknown): value is Param {
  if (typeof value === 'string') return true
  if (typeof value === 'number') return Number.isFinite(value)
  if (!isPlain(value)) return false
  if ('say' in value) return isText(value)
  if ('value' in value)
    return hasOnly(value, ['value', 'unit']) && isString(value.value) && isString(value.unit)
  if ('day' in value) return hasOnly(value, ['day']) && isString(value.day)
  if ('literal' in value) return hasOnly(value, ['literal']) && isString(value.literal)
  if ('all' in value) return isList(value)
  return (
    hasOnly(value, ['atMs', 'zone', 'style']) &&
    Number.isFinite(value.atMs) &&
    isString(value.zone) &&
    STYLES.has(value.style)
  )
}

const STYLES = new Set<unknown>(['date', 'time', 'date-time'])
const JOINS = new Set<unknown>(['and', 'or', 'lines'])

function isList(value: Plain): boolean {
  const { all } = value
  return (
    hasOnly(value, 'join' in value ? ['all', 'join'] : ['all']) &&
    (!('join' in value) || JOINS.has(value.join)) &&
    Array.isArray(all) &&
    all.every(isParam)
  )
}

function isText(value: unknown): value is Text {
  if (!isPlain(value) || !isString(value.say)) return false
  if (!('with' in value)) return hasOnly(value, ['say'])
  return hasOnly(value, ['say', 'with']) && isPlain(value.with) && Object.values(value.with).every(isParam)
}

type Plain = Readonly<Record<string, unknown>>
const isPlain = (value: unknown): value is Plain =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
const isString = (value: unknown): value is string => typeof value === 'string'

/** These fields, all of them, and no others. */
const hasOnly = (value: Plain, names: readonly string[]) =>
  Object.keys(value).length === names.length && names.every((name) => Object.hasOwn(value, name))

export const Param = z.custom<Param>(isParam, 'what stands in a sentence')
export const Text = z.custom<Text>(isText, 'a sentence by its id')

/** `say('mix.fill-to', { volume })`: a sentence by its id. */
export function say(id: string, parameters?: Readonly<Record<string, Param>>): Text {
  return parameters === undefined ? { say: id } : { say: id, with: parameters }
}

/** What somebody typed, as a sentence of its own. */
export function asTyped(words: string): Text {
  return say('words.as-typed', { words })
}

/** Text of our own that stands for itself in every language: a code, a command to copy. */
export function literalText(literal: string): Text {
  return say('words.as-typed', { words: { literal } })
}
