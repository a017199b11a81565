import { isSnowflake } from '../snowflake.ts'
import { Findings, type Path } from './findings.ts'

/** Judges one value at its place. Codes and sentences of the platform are from memory throughout. */
export type Check = (value: unknown, path: Path, findings: Findings) => void

export type Json = Record<string, unknown>

export const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** The value as a list, or an empty one. */
export const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : [])

/** The objects in a list. */
export const objectsOf = (value: unknown): Json[] => listOf(value).filter(isObject)

export const REQUIRED = ['BASE_TYPE_REQUIRED', 'This field is required'] as const

/**
 * Text of `min` to `max` characters after trimming. Counted in UTF-16 units, which is never fewer than what
 * the platform may count.
 */
export function text(min: number, max: number, pattern?: RegExp): Check {
  return (value, path, findings) => {
    if (typeof value !== 'string')
      return findings.breach(path, 'BASE_TYPE_BAD_TYPE', 'Could not interpret as string.')
    const { length } = value.trim()
    if (length === 0 && min > 0) return findings.breach(path, ...REQUIRED)
    if (length > max && min === 0)
      return findings.breach(path, 'BASE_TYPE_MAX_LENGTH', `Must be ${max} or fewer in length.`)
    if (length < min || length > max)
      return findings.breach(path, 'BASE_TYPE_BAD_LENGTH', `Must be between ${min} and ${max} in length.`)
    if (pattern !== undefined && !pattern.test(value))
      findings.breach(path, 'STRING_TYPE_REGEX', 'String value did not match validation regex.')
  }
}

export function number(min: number, max: number, whole = false): Check {
  return (value, path, findings) => {
    if (typeof value !== 'number' || !Number.isFinite(value) || (whole && !Number.isInteger(value)))
      return findings.breach(
        path,
        'NUMBER_TYPE_COERCE',
        `Value "${String(value)}" is not ${whole ? 'int' : 'float'}.`,
      )
    if (value < min)
      findings.breach(path, 'NUMBER_TYPE_MIN', `Value should be greater than or equal to ${min}.`)
    if (value > max) findings.breach(path, 'NUMBER_TYPE_MAX', `Value should be less than or equal to ${max}.`)
  }
}

export const whole = (min: number, max: number): Check => number(min, max, true)

export const truth: Check = (value, path, findings) => {
  if (typeof value !== 'boolean') findings.breach(path, 'BASE_TYPE_BAD_TYPE', 'Must be either true or false.')
}

export const snowflake: Check = (value, path, findings) => {
  if (!isSnowflake(value))
    findings.breach(path, 'NUMBER_TYPE_COERCE', `Value "${String(value)}" is not snowflake.`)
}

/** One of the listed values. */
export function choice(...allowed: readonly (string | number)[]): Check {
  return (value, path, findings) => {
    if (!allowed.includes(value as string | number))
      findings.breach(path, 'BASE_TYPE_CHOICES', `Value must be one of {${allowed.join(', ')}}.`)
  }
}

export function list(item: Check, min: number, max: number): Check {
  return (value, path, findings) => {
    if (!Array.isArray(value))
      return findings.breach(path, 'LIST_TYPE_CONVERT', 'Only iterables may be used in a ListType')
    if (value.length < min || value.length > max)
      findings.breach(path, 'BASE_TYPE_BAD_LENGTH', `Must be between ${min} and ${max} in length.`)
    value.forEach((each, index) => {
      item(each, [...path, index], findings)
    })
  }
}

/** An optional field: absent or null passes. */
export function maybe(check: Check): Check {
  return (value, path, findings) => {
    if (value !== undefined && value !== null) check(value, path, findings)
  }
}

export const anything: Check = () => {}

/** An object with these fields. A missing one is a breach unless `maybe`; an unknown one only a warning. */
export function shape(fields: Record<string, Check>): Check {
  return (value, path, findings) => {
    if (!isObject(value))
      return findings.breach(path, 'MODEL_TYPE_CONVERT', 'Only dictionaries may be used in a ModelType')
    for (const key of Object.keys(value))
      if (!(key in fields) && value[key] !== undefined)
        findings.warn([...path, key], 'UNKNOWN_FIELD', `Unknown field "${key}"`)
    for (const [key, check] of Object.entries(fields)) {
      if (value[key] === undefined && check !== anything && isRequired(check))
        findings.breach([...path, key], ...REQUIRED)
      else check(value[key], [...path, key], findings)
    }
  }
}

/** A check that complains of `undefined` makes its field a required one. */
function isRequired(check: Check): boolean {
  const probe = new Findings()
  check(undefined, [], probe)
  return !probe.clean
}
