import { field, textOf } from '#src/conversation/fields.ts'
import type { Form } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { FieldValue } from '#src/desk/command.ts'
import type { RecordDraft } from '#src/record/record.ts'
import type { LogEnv } from './env.ts'
import { logField } from './fields/all.ts'
import { blank, isNotKnown } from './fields/field.ts'
import { blankOfProducts } from './fields/product.ts'

type Fields = Readonly<Record<string, FieldValue>>

/** Field names of forms are typed in lines, so they are in small letters: `started_at`. */
export const formName = (name: string): string =>
  name.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)

const LONGEST = 200
const LONGEST_WORDS = 1000

/** A short form of the log; what stands already is filled in, and so is what was typed a moment ago. */
export function logForm(env: LogEnv, names: readonly string[], typed: Fields | null = null): Form {
  return {
    title: say('logging.form.title'),
    open: typed === null ? say('common.fill-in') : say('common.correct-it'),
    fields: names.map((name) => {
      const one = logField(name)
      const shape = one.shape?.(env) ?? {}
      const value = typed === null ? (one.show?.(env) ?? '') : textOf(typed, formName(name))
      const made = field('logging.form', name, {
        hint: shape.kind === undefined || shape.kind === 'text',
        maxLength: shape.kind === 'long-text' ? LONGEST_WORDS : LONGEST,
        ...shape,
        ...(isOffered(value, shape.options) ? { value } : {}),
      })
      return { ...made, name: formName(name) }
    }),
    to: { step: 'form', value: [...names] },
  }
}

/** A list can only show one of its own values. */
function isOffered(value: string, options: readonly { readonly value: string }[] | undefined): boolean {
  if (value === '') return false
  return (
    options === undefined || value.split(', ').every((one) => options.some((option) => option.value === one))
  )
}

export interface FormRead {
  /** With everything that could be read. */
  readonly draft: RecordDraft
  /** What could not, by the name of its field. */
  readonly wrong: readonly { readonly name: string; readonly problem: Text }[]
}

/** Everything that was typed, field by field; what is left empty is "not recorded", which the record shows. */
export function readForm(env: LogEnv, names: readonly string[], typed: Fields): FormRead {
  const wrong: { name: string; problem: Text }[] = []
  let at = env
  for (const name of names) {
    const one = logField(name)
    const text = textOf(typed, formName(name))
    const read = isNotKnown(text) ? { ok: true as const, value: emptied(name, text, at) } : one.read(text, at)
    if (read.ok) at = { ...at, draft: { ...at.draft, ...read.value } }
    else
      wrong.push({
        name,
        problem: say('logging.field-problem', { field: say(`logging.form.${name}`), problem: read.error }),
      })
  }
  return { draft: at.draft, wrong }
}

/** An empty field says that nobody knows, and so do the words for it; a value that stood there is taken back by words alone. */
function emptied(name: string, text: string, env: LogEnv): RecordDraft {
  const one = logField(name)
  const products = blankOfProducts(name, env)
  if (one.keys.length === 0) return products.length === 0 ? {} : { products }
  if (text.trim() === '') return blank(one, env.draft)
  return blank(one, {})
}

/** Values by the names of their fields in a form. */
export function formFields(given: Readonly<Record<string, string>>): Record<string, string> {
  return Object.fromEntries(Object.entries(given).map(([name, value]) => [formName(name), value]))
}
