import type { FieldShape } from '#src/conversation/fields.ts'
import type { Text } from '#src/conversation/text.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import { isNotRecorded, isRemoved, type NotRecorded, notRecorded } from '#src/record/not-recorded.ts'
import type { FieldId, RecordDraft } from '#src/record/record.ts'
import type { FreeText } from '#src/record/values.ts'
import type { LogEnv } from '../env.ts'

export type Patch = RecordDraft
export type Read = Result<Patch, Text>

/** One field of a short form of the log: what it fills, how it looks, and how what was typed is read. */
export interface LogField {
  /** Keys of the record that it fills; what is left empty becomes "not recorded" in those that nothing fills yet. */
  readonly keys: readonly FieldId[]
  readonly shape?: (env: LogEnv) => FieldShape
  /** What stands in it, for the form that corrects it. */
  readonly show?: (env: LogEnv) => string
  readonly read: (text: string, env: LogEnv) => Read
  /** Words that are kept as typed: the whole is then no place for "no" as an answer. */
  readonly isFree?: true
}

const NOT_KNOWN =
  /^(\?+|-+|—|n\/?a|don'?t know|do not know|not known|not recorded|unknown|no idea|no s[eé]|no lo s[eé]|ni idea|no anotado|no registrado|desconocid[oa])\.?$/i

/** Somebody says that nobody knows. */
export function isNotKnown(text: string): boolean {
  return text.trim() === '' || NOT_KNOWN.test(text.trim())
}

/** "Not recorded" in every key of a field that nothing has filled. */
export function blank({ keys }: LogField, draft: RecordDraft): Patch {
  const open = keys.filter((key) => draft[key] === undefined)
  return Object.fromEntries(open.map((key): [FieldId, NotRecorded] => [key, notRecorded])) as Patch
}

export const good = (patch: Patch): Read => ok(patch)
export const bad = (text: Text): Read => fail(text)

export function freeText(words: string, { tools }: LogEnv): FreeText {
  const language = /^[a-z]{2,3}/.exec(tools.locale)?.[0] ?? 'en'
  return { words: words.trim().slice(0, 2000), language }
}

export const languageOf = ({ tools }: LogEnv): 'en' | 'es' => (tools.locale.startsWith('es') ? 'es' : 'en')

/** The value as it stands; undefined for one that is not recorded, removed or absent. */
export function standing<T>(
  value: T | undefined,
): Exclude<T, { notRecorded: true } | { removed: true }> | undefined {
  return isNotRecorded(value) || isRemoved(value) ? undefined : (value as never)
}

const NONE = /^(none|nothing|nobody|no one|no|0|ning[uú]n[oa]?|nada|nadie)\.?$/i
export const isNone = (text: string): boolean => NONE.test(text.trim())
