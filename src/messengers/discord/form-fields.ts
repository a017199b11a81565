import type { FileHandle } from '#src/conversation/ask.ts'
import type { PresentedField } from '#src/messengers/present.ts'
import { COMPONENT } from './limits.ts'

/** What was filled in, by the names of the form's fields: an empty text or list where nothing was. */
export type Fields = Record<string, string | string[] | FileHandle[]>

/** One filled field as the platform sends it. */
export interface Filled {
  readonly customId: string
  readonly value: string | null
  readonly values: readonly string[]
}

const LETTERS = { text: 't', 'long-text': 't', choice: 'c', choices: 'm', file: 'f' } as const

/** `c.turf`: kind and name, since one chosen value and a list of them arrive alike. */
export function writeFieldId(field: Pick<PresentedField, 'kind' | 'name'>): string {
  return `${LETTERS[field.kind]}.${field.name}`.slice(0, COMPONENT.customId)
}

/** The fields of a submitted form; files by the handles that came with it. */
export function readFields(filled: readonly Filled[], files: ReadonlyMap<string, FileHandle>): Fields {
  const fields: Fields = {}
  for (const { customId, value, values } of filled) {
    const name = customId.slice(2)
    if (customId.startsWith('f.')) {
      const handles = values.flatMap((id) => files.get(id) ?? [])
      if (handles.length > 0) fields[name] = handles
    } else if (customId.startsWith('m.')) fields[name] = [...values]
    else fields[name] = value ?? values[0] ?? ''
  }
  return fields
}
