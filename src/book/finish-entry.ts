import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { readEntry } from '#src/label/book.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { sayProblem } from '#src/label/words.ts'
import { plants } from '#src/plants.ts'
import { entryCard } from './entry-card.ts'
import { rateForm } from './entry-forms.ts'
import { keepEntry } from './keep-entry.ts'

/** Taxa that a label entry may name. */
export function knownTaxa(): ReadonlySet<string> {
  return new Set(plants().taxa.map(({ id }) => id))
}

/** Checks the whole entry and keeps it; what is wrong brings the rate step back. */
export async function finishEntry(entry: unknown, draft: object, tools: Tools): Promise<Answer> {
  const read = readEntry(entry, knownTaxa())
  if (!read.ok)
    return {
      reply: reply('question', say('common.not-yet'), {
        lines: read.error.map(sayProblem),
        form: { ...rateForm(), open: say('common.correct-it') },
        audience: 'person',
      }),
      state: { ...draft, lines: [], limits: {} },
    }
  return { reply: await keptCard(read.value, tools) }
}

/** The entry as it was kept, what looks like a slip, and whether a second person has to retype it. */
export async function keptCard(entry: LabelEntry, tools: Tools) {
  const kept = await keepEntry(entry, tools)
  const status: Text = kept.live
    ? say('book.kept.live', { name: entry.name })
    : say('book.kept.waiting', { name: entry.name })
  const card = entryCard(entry, status, [
    ...kept.slips,
    ...(kept.live
      ? []
      : [say('book.kept.retype', { command: { literal: `/label confirm product:"${entry.name}"` } })]),
  ])
  return kept.slips.length === 0 ? card : { ...card, outcome: 'heads-up' as const }
}
