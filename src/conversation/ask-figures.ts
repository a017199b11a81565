import type { Answer, FieldValue } from '#src/desk/command.ts'
import { withSet } from './ask-for.ts'
import { type FieldShape, field, textOf } from './fields.ts'
import { type Choice, type Form, reply } from './reply.ts'
import { say, type Text } from './text.ts'

/** A question for figures of a command, each field named like the option that it fills. */
export interface Figures {
  /** Words of the fields: `<form>.<name>` and `<form>.<name>-hint`. */
  readonly form: string
  readonly fields: readonly string[]
  readonly shapes?: Readonly<Record<string, FieldShape>>
  readonly lines?: readonly Text[]
  readonly choices?: readonly Choice[]
  readonly about?: readonly string[]
}

export const FIGURES = 'figures'

/** Asks for what is missing; what was said so far is kept. */
export function askFigures(given: object, title: Text, figures: Figures): Answer {
  return {
    reply: reply('question', title, {
      lines: [...(figures.lines ?? [])],
      choices: [...(figures.choices ?? [])],
      form: figuresForm(figures, given),
      audience: 'person',
      safety: { about: [...(figures.about ?? ['measuring'])] },
    }),
    state: given,
  }
}

function figuresForm({ form, fields, shapes = {} }: Figures, values: object): Form {
  const known = Object.fromEntries(Object.entries(values))
  return {
    title: say(`${form}.title`),
    open: say('common.fill-in'),
    fields: fields.slice(0, 5).map((name) => {
      const value = known[name]
      return field(form, name, {
        hint: true,
        ...(typeof value === 'string' ? { value } : {}),
        ...shapes[name],
      })
    }),
    to: { step: FIGURES },
  }
}

type Fields = Readonly<Record<string, FieldValue>>

/** What was said so far with what a form adds. */
export function withFields(given: object, fields: Fields): Record<string, unknown> {
  return withSet(given, Object.fromEntries(Object.keys(fields).map((name) => [name, textOf(fields, name)])))
}

/**
 * A refusal of what a form brought becomes a question again, with the form filled in as it was sent, so that one
 * wrong figure is corrected and not all of them are typed again.
 */
export function letCorrect(answer: Answer, asked: Pick<Figures, 'form' | 'shapes'>, fields: Fields): Answer {
  if (answer.reply.outcome !== 'refusal' || answer.reply.form !== null) return answer
  const form = figuresForm({ ...asked, fields: Object.keys(fields) }, withFields({}, fields))
  return {
    ...answer,
    reply: { ...answer.reply, outcome: 'question', form: { ...form, open: say('common.correct-it') } },
  }
}
