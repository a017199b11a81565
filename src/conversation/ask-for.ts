import type { Answer } from '#src/desk/command.ts'
import { type ReplyParts, reply } from './reply.ts'
import type { Text } from './text.ts'

/** One way to answer a question: which option it sets, and to what. */
export interface OptionChoice {
  readonly label: Text
  readonly hint?: Text
  readonly set: Readonly<Record<string, string | number | boolean | null>>
}

/** The step that every question of this kind leads to. */
export const SET = 'set'

/** A question whose choices set options of the command; what was said so far is kept as its state. */
export function askFor(
  given: object,
  title: Text,
  choices: readonly OptionChoice[],
  parts: ReplyParts & { readonly outcome?: 'question' | 'hold' } = {},
): Answer {
  const { outcome = 'question', ...rest } = parts
  return {
    reply: reply(outcome, title, {
      ...rest,
      choices: choices.slice(0, 25).map(({ label, hint, set }) => ({
        label,
        ...(hint === undefined ? {} : { hint }),
        to: { step: SET, value: set },
      })),
    }),
    state: given,
  }
}

/** What was said so far with what a press or a form adds; an empty text takes an option back. */
export function withSet(given: object, added: unknown): Record<string, unknown> {
  const merged: Record<string, unknown> = Object.fromEntries(Object.entries(given))
  if (typeof added !== 'object' || added === null) return merged
  for (const [name, value] of Object.entries(added)) {
    if (value === '' || value === null) delete merged[name]
    else merged[name] = value
  }
  return merged
}
