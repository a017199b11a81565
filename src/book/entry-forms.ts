import { field, refill, textOf } from '#src/conversation/fields.ts'
import type { Form } from '#src/conversation/reply.ts'
import { literalText, say } from '#src/conversation/text.ts'
import type { FieldValue } from '#src/desk/command.ts'
import { Formulation, type LabelEntry, SignalWord } from '#src/label/entry.ts'

export type Fields = Readonly<Record<string, FieldValue>>

const options = (values: readonly string[]) => values.map((value) => ({ value, label: literalText(value) }))

/** First step of a new entry: which product it is. */
export function productForm(typed: Fields = {}): Form {
  return form(
    'product',
    [
      field('book.form', 'name', { required: true, maxLength: 80 }),
      field('book.form', 'formulation', {
        kind: 'choice',
        required: true,
        hint: true,
        options: options(Formulation.options),
      }),
      field('book.form', 'registration', { required: true, hint: true, maxLength: 60 }),
      field('book.form', 'actives', { kind: 'long-text', required: true, hint: true, maxLength: 600 }),
      field('book.form', 'signal', { kind: 'choice', required: true, options: options(SignalWord.options) }),
    ],
    typed,
  )
}

/** Second step, once for each rate line: what the label prints. */
export function rateForm(typed: Fields = {}): Form {
  return form(
    'rate',
    [
      field('book.form', 'line', { kind: 'long-text', required: true, hint: true, maxLength: 900 }),
      field('book.form', 'turfs', { required: true, hint: true, maxLength: 400 }),
      field('book.form', 'weeds', { hint: true, maxLength: 400 }),
      field('book.form', 'rates', { required: true, hint: true, maxLength: 300 }),
      field('book.form', 'limits', { kind: 'long-text', hint: true, maxLength: 400 }),
    ],
    typed,
  )
}

/** Which label was held against the form: its version and date. */
export function labelField(label?: LabelEntry['label']) {
  return field('book.form', 'label', {
    required: true,
    hint: true,
    maxLength: 80,
    ...(label === undefined ? {} : { value: `${label.version} ${label.date}` }),
  })
}

/** Last step: what to wear, and which label this was typed from. */
export function safetyForm(typed: Fields = {}): Form {
  return form(
    'safety',
    [
      field('book.form', 'mixing', { kind: 'long-text', required: true, hint: true, maxLength: 800 }),
      field('book.form', 'spraying', { kind: 'long-text', required: true, hint: true, maxLength: 800 }),
      field('book.form', 'keep_off', { maxLength: 400 }),
      field('book.form', 'first_aid', { kind: 'long-text', maxLength: 900 }),
      labelField(),
    ],
    typed,
  )
}

function form(step: string, fields: Form['fields'], typed: Fields): Form {
  const isCorrection = Object.keys(typed).some((name) => textOf(typed, name) !== '')
  return {
    title: say(`book.form.title-${step}`),
    open: say(isCorrection ? 'common.correct-it' : 'common.fill-in'),
    fields: refill(fields, typed),
    to: { step },
  }
}
