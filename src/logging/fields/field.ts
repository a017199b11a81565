import type { FieldShape } from '#src/conversation/fields.ts'
import type { Text } from '#src/conversation/text.ts'
import { quantityTrouble } from '#src/conversation/trouble.ts'
import type { Tools } from '#src/desk/command.ts'
import { parseQuantity, type QuantityOptions } from '#src/quantity/parse.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import type { Dimension, UnitOf } from '#src/quantity/units.ts'
import { type NotRecorded, notRecorded } from '#src/record/not-recorded.ts'
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

/** A list to choose from. Each value is said by its own words joined: "kept in the tank" by `kept-in-the-tank`. */
export const choiceOf = (values: readonly string[], words: (id: string) => Text) => (): FieldShape => ({
  kind: 'choice',
  options: values.map((value) => ({ value, label: words(value.replaceAll(' ', '-')) })),
})

/** The value that was chosen, or typed in whatever capitals. */
export const chosenOf = <Value extends string>(values: readonly Value[], text: string): Value | undefined =>
  values.find((one) => one === text.trim().toLowerCase())

/** Words as somebody typed them, with the language of who typed. */
export function freeText(words: string, { locale }: Pick<Tools, 'locale'>): FreeText {
  const language = /^[a-z]{2,3}/.exec(locale)?.[0] ?? 'en'
  return { words: words.trim().slice(0, 2000), language }
}

export const languageOf = ({ tools }: LogEnv): 'en' | 'es' => (tools.locale.startsWith('es') ? 'es' : 'en')

/** One amount with its unit; `bareUnit` is what a number alone is taken in. */
export function readAmount<D extends Dimension>(
  text: string,
  env: LogEnv,
  options: Omit<QuantityOptions<D>, 'locale'>,
  use: (amount: Quantity<UnitOf<D>>) => Patch,
): Read {
  const read = parseQuantity<D>(text, { locale: languageOf(env), ...options })
  return read.ok ? good(use(read.value)) : bad(quantityTrouble(read.error))
}

/** As a form shows it again: a number and a unit that can be read back. */
export function printAmount(amount: Quantity | undefined): string {
  return amount === undefined ? '' : `${amount.value} ${amount.unit}`
}

const NONE = /^(none|nothing|nobody|no one|no|0|ning[uú]n[oa]?|nada|nadie)\.?$/i
export const isNone = (text: string): boolean => NONE.test(text.trim())
