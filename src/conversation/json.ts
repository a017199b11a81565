import { z } from 'zod'

/** Whatever JSON can hold. */
export type Json = z.core.util.JSONType

/** Looked at by hand, as every answer is kept: the schema of the library tries each kind in turn, all the way down. */
export const Json = z.custom<Json>(isJson, 'plain data')

function isJson(value: unknown): value is Json {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return true
  if (typeof value === 'number') return Number.isFinite(value)
  if (typeof value !== 'object') return false
  if (Array.isArray(value)) return value.every(isJson)
  const kind: unknown = Object.getPrototypeOf(value)
  return (kind === Object.prototype || kind === null) && Object.values(value).every(isJson)
}
