import type { StoredFile } from './ask.ts'
import type { Field } from './reply.ts'
import { say, type Text } from './text.ts'

type Values = Readonly<Record<string, string | string[] | StoredFile[]>>

/** What stands in a text field, trimmed; empty when nothing does. */
export function textOf(fields: Values, name: string): string {
  const value = fields[name]
  return typeof value === 'string' ? value.trim() : isTexts(value) ? value.join(', ').trim() : ''
}

/** What is ticked in a list. */
export function ticksOf(fields: Values, name: string): readonly string[] {
  const value = fields[name]
  return typeof value === 'string' ? [value].filter((one) => one !== '') : isTexts(value) ? value : []
}

export function filesOf(fields: Values, name: string): readonly StoredFile[] {
  const value = fields[name]
  return Array.isArray(value) && !isTexts(value) ? value : []
}

function isTexts(value: Values[string] | undefined): value is string[] {
  return Array.isArray(value) && value.every((one) => typeof one === 'string')
}

/** The same fields with what was typed last time, so that one wrong field is corrected and not all typed again. */
export function refill(fields: readonly Field[], values: Values): Field[] {
  return fields.map((field) => {
    const value = textOf(values, field.name)
    return field.kind === 'file' || value === '' ? field : { ...field, value }
  })
}

export interface FieldShape {
  readonly kind?: Field['kind']
  readonly required?: boolean
  readonly value?: string
  readonly hint?: boolean
  readonly maxLength?: number
  readonly options?: Field['options']
}

/** A field whose words are `<form>.<name>` and, with a hint, `<form>.<name>-hint`. */
export function field(form: string, name: string, shape: FieldShape = {}): Field {
  return {
    name,
    kind: shape.kind ?? 'text',
    label: say(`${form}.${name}`),
    required: shape.required ?? false,
    ...(shape.hint ? { hint: say(`${form}.${name}-hint`) } : {}),
    ...(shape.value === undefined || shape.value === '' ? {} : { value: shape.value }),
    ...(shape.maxLength === undefined ? {} : { maxLength: shape.maxLength }),
    ...(shape.options === undefined ? {} : { options: shape.options }),
  }
}

export type Problems = readonly Text[]
