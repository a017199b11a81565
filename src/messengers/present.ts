import type { Attachment, Fact, Form, Outcome } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { writeToken } from '#src/conversation/token.ts'
import type { Answered } from '#src/desk/desk.ts'
import { once } from '#src/memory/once.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { outcomeMark, outcomeWord } from '#src/words/outcome.ts'
import { speak } from '#src/words/speak.ts'

export interface PresentedFact {
  readonly name: string
  readonly value: Fact['value']
  readonly unit: string | null
  readonly text: string
}

export interface PresentedField {
  readonly name: string
  readonly kind: Form['fields'][number]['kind']
  readonly label: string
  readonly hint: string | null
  readonly required: boolean
  readonly value: string | null
  readonly options: readonly { readonly value: string; readonly label: string }[]
  readonly maxLength: number
}

export interface PresentedForm {
  readonly token: string
  readonly title: string
  readonly open: string
  readonly fields: readonly PresentedField[]
}

export interface PresentedChoice {
  readonly token: string
  readonly label: string
  readonly hint: string | null
  readonly look: 'main' | 'plain' | 'stop'
}

/** A reply in one language, with what people typed made harmless; still without any messenger's shape. */
export interface Presented {
  readonly outcome: Outcome
  readonly mark: string
  readonly word: string
  readonly title: string
  readonly lines: readonly string[]
  readonly facts: readonly PresentedFact[]
  readonly working: readonly string[]
  readonly safety: readonly { readonly id: string; readonly text: string }[]
  /** The small line on label, local codes and licensed practice. */
  readonly standing: string
  readonly number: string | null
  readonly numberLine: string | null
  readonly demo: string | null
  readonly choices: readonly PresentedChoice[]
  readonly form: PresentedForm | null
  readonly files: readonly (Omit<Attachment, 'alt'> & { readonly alt: string })[]
  readonly audience: 'crew' | 'person'
}

export interface PresentStyle {
  readonly locale: string
  readonly escape: (typed: string) => string
}

/** The one way from an answer to words, for every messenger. */
export function present(words: Catalogue, answered: Answered, style: PresentStyle): Presented {
  const { reply, turnId } = answered
  const inWords = (text: Text) => speak(words, text, { ...style, zone: answered.zone })
  const plain = (text: Text) =>
    speak(words, text, { ...style, escape: (typed) => typed, zone: answered.zone })
  const label = (reply.safety.label ?? []).map((text, at) => ({ id: `label.${at + 1}`, text: inWords(text) }))
  const number = answered.number === null ? null : String(answered.number)
  // How it was reckoned stands behind a button: most messages never show it.
  const working = once(() => reply.working.map(inWords))
  return {
    outcome: reply.outcome,
    mark: outcomeMark(reply.outcome),
    word: inWords(outcomeWord(reply.outcome)),
    title: inWords(reply.title),
    lines: reply.lines.map(inWords),
    facts: reply.facts.map((fact) => presentFact(fact, inWords)),
    get working() {
      return working()
    },
    safety: [
      ...(reply.safety.chosen ?? []).map((id) => ({ id, text: inWords(say(`safety.${id}`)) })),
      ...label,
    ],
    standing: inWords(say('common.standing')),
    number,
    numberLine: number === null ? null : inWords(say('common.answer-number', { number })),
    demo: answered.demo ? inWords(say('common.demo')) : null,
    // A button is plain text in every messenger: nothing in it can fire, so nothing is escaped.
    choices: reply.choices.map((choice, at) => ({
      token: turnId === null ? '' : writeToken({ turnId, choice: at + 1 }),
      label: plain(choice.label),
      hint: choice.hint === undefined ? null : plain(choice.hint),
      look: choice.look ?? 'plain',
    })),
    form: reply.form === null || turnId === null ? null : presentForm(reply.form, turnId, plain),
    files: reply.files.map((file) => ({ ...file, alt: plain(file.alt) })),
    audience: reply.audience,
  }
}

function presentFact(fact: Fact, inWords: (text: Text) => string): PresentedFact {
  const unit = fact.unit ?? null
  const value = String(fact.value)
  // Many figures are for machines and records alone.
  const text = once(() => {
    if (fact.text !== undefined) return inWords(fact.text)
    return unit === null ? value : inWords(say('words.quantity', { quantity: { value, unit } }))
  })
  return {
    name: fact.name,
    value: fact.value,
    unit,
    get text() {
      return text()
    },
  }
}

function presentForm(form: Form, turnId: number, plain: (text: Text) => string): PresentedForm {
  return {
    token: writeToken({ turnId, choice: 'form' }),
    title: plain(form.title),
    open: plain(form.open),
    fields: form.fields.map((field) => ({
      name: field.name,
      kind: field.kind,
      label: plain(field.label),
      hint: field.hint === undefined ? null : plain(field.hint),
      required: field.required,
      value: field.value ?? null,
      options: (field.options ?? []).map((option) => ({ value: option.value, label: plain(option.label) })),
      maxLength: field.maxLength ?? 1000,
    })),
  }
}
