import { z } from 'zod'
import { textOf } from '#src/conversation/fields.ts'
import { type Form, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer, FieldValue, Tools } from '#src/desk/command.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { figuresToRetype, type RetypeFigure, retypeMatches } from '#src/label/revision.ts'
import { sayProblem } from '#src/label/words.ts'
import type { Revision } from '#src/store/labels.ts'
import { entryCard } from './entry-card.ts'

export const RetypeState = z.strictObject({
  revisionId: z.number().int(),
  typed: z.record(z.string(), z.string()),
})
type RetypeState = z.infer<typeof RetypeState>

/** A form holds five fields; an entry with more figures is retyped in several. */
const AT_A_TIME = 5

/** Asks a second person for every new rate and maximum. What was entered is not shown: they read the label. */
export function askToRetype(waiting: Revision, live: LabelEntry | null, tools: Tools): Answer {
  if (waiting.enteredBy === tools.person.id)
    return {
      reply: reply('hold', say('label.retype-same-person'), {
        audience: 'person',
        safety: { about: ['measuring'] },
      }),
    }
  return askNext(waiting, figuresToRetype(waiting.body, live), { revisionId: waiting.id, typed: {} })
}

function askNext(
  waiting: Revision,
  figures: readonly RetypeFigure[],
  state: RetypeState,
  problems: readonly Text[] = [],
): Answer {
  const left = figures.filter(({ id }) => state.typed[id] === undefined)
  return {
    reply: reply('question', say('book.retype.title', { name: waiting.body.name, left: left.length }), {
      lines: [...problems, say('book.retype.how')],
      form: retypeForm(waiting.body, left.slice(0, AT_A_TIME), problems.length > 0),
      audience: 'person',
      safety: { about: ['measuring'] },
    }),
    state: { given: {}, retype: state },
  }
}

/** Fields are called `f1` to `f5`; which figures they are follows from the order of those still missing. */
function retypeForm(entry: LabelEntry, figures: readonly RetypeFigure[], again: boolean): Form {
  return {
    title: say('book.retype.form'),
    open: say(again ? 'common.correct-it' : 'common.fill-in'),
    fields: figures.map(({ id }, at) => ({
      name: `f${at + 1}`,
      kind: 'text',
      label: figureName(entry, id),
      required: true,
      maxLength: 80,
    })),
    to: { step: 'retype' },
  }
}

function figureName(entry: LabelEntry, id: string): Text {
  const [kind = '', line = '', number = '0', end = 'high'] = id.split('.')
  if (kind !== 'rate') return say(`book.retype.${kind}`, { number: Number(number) + 1 })
  const printed = entry.rateLines.find((one) => one.id === line)?.line ?? line
  return say(`book.retype.${end}`, { line: printed.slice(0, 24), number: Number(number) + 1 })
}

/** Takes what was typed; when all of it is there and matches, the revision goes live. */
export async function retype(
  state: RetypeState,
  fields: Readonly<Record<string, FieldValue>>,
  tools: Tools,
): Promise<Answer> {
  const { store, person, today } = tools
  const waiting = await store.labels.getRevision(state.revisionId)
  if (waiting?.status !== 'waiting')
    return { reply: reply('refusal', say('book.retype.gone'), { audience: 'person' }) }
  const live = (await store.labels.get(waiting.entryId))?.live?.body ?? null
  const figures = figuresToRetype(waiting.body, live)
  const left = figures.filter(({ id }) => state.typed[id] === undefined).slice(0, AT_A_TIME)
  const now = Object.fromEntries(left.map(({ id }, at) => [id, textOf(fields, `f${at + 1}`)]))
  const typed = { ...state.typed, ...now }
  const who = { live, enteredBy: String(waiting.enteredBy), retypedBy: String(person.id) }
  const found = retypeMatches(waiting.body, typed, who)
  const wrong = found.filter(({ path }) => path === '' || typed[path] !== undefined)
  if (wrong.length > 0) {
    const right = Object.fromEntries(
      Object.entries(typed).filter(([id]) => !wrong.some(({ path }) => path === id)),
    )
    const named = wrong.map((problem) =>
      say('book.retype.problem', {
        figure: figureName(waiting.body, problem.path),
        problem: sayProblem({ ...problem, path: '' }),
      }),
    )
    return askNext(waiting, figures, { ...state, typed: right }, named)
  }
  if (found.length > 0) return askNext(waiting, figures, { ...state, typed })
  await store.labels.makeLive(waiting, { by: person.id, on: today })
  await tools.namesChanged()
  return { reply: entryCard(waiting.body, say('book.kept.live', { name: waiting.body.name })) }
}
