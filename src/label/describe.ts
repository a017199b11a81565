import { z } from 'zod'
import { LabelEntry } from './entry.ts'

/** What a file of label entries looks like, as JSON Schema for editors that know it. */
export function describeBook() {
  const { $schema, ...entry } = z.toJSONSchema(LabelEntry)
  return {
    $schema,
    title: 'Label book',
    type: 'object',
    properties: { entries: { type: 'array', minItems: 1, items: entry } },
    required: ['entries'],
  }
}
