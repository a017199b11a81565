import { createHash, createHmac } from 'node:crypto'
import type { Json } from './canonical.ts'
import { canonicalJson } from './canonical.ts'
import { isNotRecorded, isRemoved } from './not-recorded.ts'
import { isPersonal } from './record.ts'

/** Personal value that is kept beside the chain, with the random salt of its commitment, 32 bytes in hex. */
export interface Kept {
  readonly salt: string
  readonly value: Json
}

/** What enters the chain, where a commitment stands in the place of every personal value, and those values by path. */
export interface Sealed {
  readonly open: Json
  readonly kept: Readonly<Record<string, Kept>>
}

/** Gives a new salt for the value at a path: 32 random bytes in hex. Randomness comes from outside. */
export type NewSalt = (path: string) => string

const SALT = /^[0-9a-f]{64}$/

export function sha256(text: string): string {
  return createHash('sha256').update(text, 'utf8').digest('hex')
}

/**
 * The commitment to a value: HMAC-SHA256 over its path and canonical JSON, keyed with a salt of its own. Without the
 * salt nobody can test a guess, so that a removed value leaves nothing behind.
 * @throws RangeError for a salt that is not 32 bytes in hex
 */
export function commit(path: string, { salt, value }: Kept): string {
  if (!SALT.test(salt)) throw new RangeError('Cannot seal with a salt that is not 32 bytes in hex')
  return createHmac('sha256', Buffer.from(salt, 'hex'))
    .update(`${path}\n${canonicalJson(value)}`, 'utf8')
    .digest('hex')
}

/** Puts a commitment in the place of every personal value: whole fields, and whatever somebody typed freely. */
export function seal(value: Json, newSalt: NewSalt, isSealedField = isPersonal): Sealed {
  const kept: Record<string, Kept> = {}
  const walk = (inner: Json, path: string): Json => {
    if (typeof inner !== 'object' || inner === null || isMark(inner)) return inner
    if (isFreeText(inner)) return keep(inner, path)
    if (Array.isArray(inner)) return inner.map((one: Json, n) => walk(one, `${path}.${n}`))
    return mapObject(inner as JsonObject, (one, key) => {
      const at = path === '' ? key : `${path}.${key}`
      return isSealedField(at) && !isMark(one) ? keep(one, at) : walk(one, at)
    })
  }
  const keep = (inner: Json, path: string): Json => {
    const entry = { salt: newSalt(path), value: inner }
    kept[path] = entry
    return { sealed: commit(path, entry) }
  }
  return { open: walk(value, ''), kept }
}

/** The value again, as far as its personal parts are still kept; "removed" stands where they are not. */
export function unseal({ open, kept }: Sealed): Json {
  // Most of a record holds nothing sealed, and stands as it is: it is not copied, and no path is put together for it.
  const way: Way = []
  const walk = (inner: Json): Json => {
    if (typeof inner !== 'object' || inner === null) return inner
    if (isSealedValue(inner)) return kept[pathOf(way)]?.value ?? { removed: true }
    return Array.isArray(inner) ? walkList(inner) : walkObject(inner as JsonObject)
  }
  const walkInto = (key: string | number, inner: Json): Json => {
    way.push(key)
    const opened = walk(inner)
    way.pop()
    return opened
  }
  const walkList = (inner: readonly Json[]): Json => {
    let changed: Json[] | null = null
    for (let at = 0; at < inner.length; at += 1) {
      const one = inner[at] as Json
      if (typeof one !== 'object' || one === null) continue
      const opened = walkInto(at, one)
      if (opened === one) continue
      changed ??= [...inner]
      changed[at] = opened
    }
    return changed ?? inner
  }
  const walkObject = (inner: JsonObject): Json => {
    let changed: Record<string, Json> | null = null
    for (const key in inner) {
      const one = inner[key]
      if (typeof one !== 'object' || one === null) continue
      const opened = walkInto(key, one)
      if (opened === one) continue
      changed ??= { ...inner }
      changed[key] = opened
    }
    return changed ?? inner
  }
  return walk(open)
}

/** Keys from the root to a value; a number for a place in a list. */
type Way = (string | number)[]

function pathOf(way: Way): string {
  let path = ''
  for (const key of way) path = typeof key === 'string' && path === '' ? key : `${path}.${key}`
  return path
}

/** The same without the personal values of some paths, or without all of them. The chain is not touched by it. */
export function removePersonal(sealed: Sealed, paths?: readonly string[]): Sealed {
  const kept = Object.entries(sealed.kept).filter(([path]) => paths !== undefined && !paths.includes(path))
  return { open: sealed.open, kept: Object.fromEntries(kept) }
}

/** Paths at which a kept personal value is not the one that was committed to, or was never committed to. */
export function brokenSeals({ open, kept }: Sealed): readonly string[] {
  const commitments = new Map(commitmentsOf(open, ''))
  return Object.entries(kept).flatMap(([path, entry]) => {
    const isSound = SALT.test(entry.salt) && commitments.get(path) === commit(path, entry)
    return isSound ? [] : [path]
  })
}

type JsonObject = { readonly [key: string]: Json }

function commitmentsOf(value: Json, path: string): readonly (readonly [string, string])[] {
  if (typeof value !== 'object' || value === null) return []
  if (isSealedValue(value)) return [[path, value.sealed]]
  const entries = Array.isArray(value)
    ? value.map((one: Json, n) => [String(n), one] as const)
    : Object.entries(value)
  return entries.flatMap(([key, inner]) => commitmentsOf(inner, path === '' ? key : `${path}.${key}`))
}

function mapObject(value: JsonObject, change: (inner: Json, key: string) => Json): JsonObject {
  const entries = Object.entries(value).filter(([, inner]) => inner !== undefined)
  return Object.fromEntries(entries.map(([key, inner]) => [key, change(inner, key)]))
}

/** "Not recorded" says nothing about anybody, and stays readable. */
function isMark(value: Json): boolean {
  return isNotRecorded(value) || isRemoved(value)
}

function isFreeText(value: Json): boolean {
  return typeof value === 'object' && value !== null && 'words' in value && 'language' in value
}

export function isSealedValue(value: Json): value is { readonly sealed: string } {
  return (
    typeof value === 'object' &&
    value !== null &&
    !Array.isArray(value) &&
    'sealed' in value &&
    typeof value.sealed === 'string'
  )
}
