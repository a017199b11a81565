/// <reference lib="dom" />
import type { PageAnswer } from '../shapes.ts'
import { el } from './dom.ts'
import type { Field, Filled } from './fields.ts'
import { Refused } from './server.ts'
import { word } from './start.ts'

export interface FormParts {
  readonly fields: readonly Field[]
  readonly shown: readonly (HTMLElement | null)[]
  readonly button: string
  readonly send: (filled: Readonly<Record<string, Filled>>) => Promise<PageAnswer>
  /** Gets what came of it, unless something has to be mended first. */
  readonly done: (answer: PageAnswer, isMended: boolean) => void
  readonly more?: readonly HTMLElement[]
}

/** A form that says beside each field what is wrong with it, and never loses what was typed. */
export function buildForm(parts: FormParts): HTMLFormElement {
  const status = el('p', { class: 'hint', role: 'status' })
  const button = el('button', { type: 'submit', class: 'main' }, parts.button)
  const blame = (problems: PageAnswer['problems']) => {
    for (const field of parts.fields)
      field.blame(problems.find((problem) => problem.field === field.name)?.text ?? null)
    const first = parts.fields.find(({ name }) => problems.some(({ field }) => field === name))
    first?.focus()
    return first !== undefined
  }
  const submit = async () => {
    button.disabled = true
    status.textContent = word('sending')
    try {
      const filled: Record<string, Filled> = {}
      for (const field of parts.fields) {
        try {
          filled[field.name] = await field.read()
        } catch (error) {
          if (!(error instanceof Refused)) throw error
          blame([{ field: field.name, text: word(error.status === 413 ? 'file-too-big' : 'files-full') }])
          return
        }
      }
      const answer = await parts.send(filled)
      // Before anything is scrolled to: the line that goes away would move it.
      status.textContent = ''
      parts.done(answer, !blame(answer.problems))
    } finally {
      // Meanwhile somebody may have used it up.
      button.disabled = built.hasAttribute('data-closed')
      status.textContent = ''
    }
  }
  const built = el(
    'form',
    {
      class: 'fill',
      novalidate: true,
      submit: (event) => {
        event.preventDefault()
        void submit()
      },
    },
    ...parts.shown,
    status,
    el('div', { class: 'row' }, button, [...(parts.more ?? [])]),
  )
  return built
}
