import { z } from 'zod'
import { metaOf } from '#src/desk/parse-options.ts'

/** What one option of a command takes, read from its schema. */
export type OptionShape =
  | {
      readonly kind: 'text'
      readonly suggests: boolean
      readonly least: number | null
      readonly most: number | null
    }
  | { readonly kind: 'choice'; readonly values: readonly string[] }
  | { readonly kind: 'integer' | 'number'; readonly least: number | null; readonly most: number | null }
  | { readonly kind: 'boolean' | 'file' | 'role' }

export interface OptionSpec {
  readonly name: string
  readonly required: boolean
  readonly shape: OptionShape
}

/** A schema that no option can be made of. */
export class OptionError extends Error {
  override readonly name = 'OptionError'
}

/** Options of a schema, required ones first as the platform wants them. @throws OptionError */
export function optionsOf(schema: z.ZodObject): OptionSpec[] {
  const all = Object.entries(schema.shape).map(([name, one]): OptionSpec => {
    return { name, required: !isOptional(one), shape: shapeOf(name, one) }
  })
  return [...all.filter((one) => one.required), ...all.filter((one) => !one.required)]
}

function isOptional(schema: z.core.$ZodType): boolean {
  return z.safeParse(schema, undefined).success
}

function shapeOf(name: string, schema: z.core.$ZodType): OptionShape {
  const meta = metaOf(schema)
  if (meta.file === true) return { kind: 'file' }
  if (meta.role === true) return { kind: 'role' }
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault || schema instanceof z.ZodNullable)
    return withMeta(shapeOf(name, schema.unwrap()), meta.suggest !== undefined)
  if (schema instanceof z.ZodEnum) return { kind: 'choice', values: schema.options.map(String) }
  if (schema instanceof z.ZodString)
    return {
      kind: 'text',
      suggests: meta.suggest !== undefined,
      least: schema.minLength,
      most: schema.maxLength,
    }
  if (schema instanceof z.ZodNumber)
    return {
      kind: schema.isInt ? 'integer' : 'number',
      least: finite(schema.minValue),
      most: finite(schema.maxValue),
    }
  if (schema instanceof z.ZodBoolean) return { kind: 'boolean' }
  throw new OptionError(
    `Cannot make an option of "${name}": only text, choices, numbers, yes or no, and files`,
  )
}

function withMeta(shape: OptionShape, suggests: boolean): OptionShape {
  return shape.kind === 'text' ? { ...shape, suggests: shape.suggests || suggests } : shape
}

const finite = (bound: number | null) => (bound !== null && Number.isFinite(bound) ? bound : null)
