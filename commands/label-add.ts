import { z } from 'zod'
import { addFromFile } from '#src/book/add-file.ts'
import { productForm, rateForm, safetyForm } from '#src/book/entry-forms.ts'
import { finishEntry } from '#src/book/finish-entry.ts'
import { type ReadPart, readProduct, readRateLine, readSafety } from '#src/book/read-forms.ts'
import { readWaits, waitsForm } from '#src/book/waits.ts'
import { StoredFile } from '#src/conversation/ask.ts'
import { type Form, type Reply, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Event, type Tools } from '#src/desk/command.ts'

const Draft = z.strictObject({
  product: z.record(z.string(), z.json()).nullable(),
  lines: z.array(z.record(z.string(), z.json())),
  limits: z.record(z.string(), z.json()),
})
type Draft = z.infer<typeof Draft>

/** Adds a product to the label book: three short steps typed from the label, or a JSON file of many. */
export default defineCommand({
  name: 'label add',
  may: 'lead',
  copiesLabels: true,
  options: z.strictObject({ file: StoredFile.optional().meta({ file: true }) }),
  state: Draft,
  async start({ file }, tools) {
    if (file !== undefined) return addFromFile(file, tools)
    return ask(productForm(), say('book.add.first'), { product: null, lines: [], limits: {} })
  },
  async next(draft, event, tools) {
    if (event.kind === 'press')
      return PRESSED[event.step]?.(draft) ?? ask(safetyForm(), say('book.add.last'), draft)
    return STEPS[event.step]?.(draft, event, tools) ?? ask(productForm(), say('book.add.first'), draft)
  },
})

const PRESSED: Readonly<Record<string, (draft: Draft) => Answer>> = {
  more: (draft) => ask(rateForm(), say('book.add.next-line'), draft),
  waits: (draft) => ask(waitsForm(null), say('book.add.waits'), draft),
}

type Submit = Event & { readonly kind: 'submit' }

const STEPS: Readonly<
  Record<string, (draft: Draft, event: Submit, tools: Tools) => Answer | Promise<Answer>>
> = {
  product: (draft, { fields }) =>
    taken(readProduct(fields), productForm(fields), draft, (part) =>
      ask(rateForm(), say('book.add.second'), { ...draft, product: json(part) }),
    ),
  rate: (draft, { fields }) =>
    taken(
      readRateLine(
        fields,
        draft.lines.map(({ id }) => String(id)),
      ),
      rateForm(fields),
      draft,
      ({ line, limits }) =>
        askMore({
          ...draft,
          lines: [...draft.lines, json(line)],
          limits: { ...draft.limits, ...json(limits) },
        }),
    ),
  waits: (draft, { fields }) => {
    const read = readWaits(fields)
    if (read.ok) return askMore({ ...draft, limits: { ...draft.limits, ...json(read.limits) } })
    return { reply: notYet(read.problems, waitsForm(null, fields)), state: draft }
  },
  safety: (draft, { fields }, tools) =>
    taken(readSafety(fields, tools.today), safetyForm(fields), draft, (part) =>
      finishEntry({ ...draft.product, ...part, rateLines: draft.lines, limits: draft.limits }, draft, tools),
    ),
}

const json = (part: unknown) => z.record(z.string(), z.json()).parse(part)

function taken(
  read: ReadPart,
  again: Form,
  draft: Draft,
  go: (part: Readonly<Record<string, unknown>>) => Answer | Promise<Answer>,
): Answer | Promise<Answer> {
  if (read.ok) return go(read.part)
  return { reply: notYet(read.problems, again), state: draft }
}

function notYet(problems: readonly Text[], again: Form): Reply {
  return reply('question', say('common.not-yet'), { lines: [...problems], form: again, audience: 'person' })
}

function ask(form: Form, title: ReturnType<typeof say>, draft: Draft): Answer {
  return {
    reply: reply('question', title, { form, audience: 'person', safety: { about: ['measuring'] } }),
    state: draft,
  }
}

function askMore(draft: Draft): Answer {
  return {
    reply: reply('question', say('book.add.more', { lines: draft.lines.length }), {
      audience: 'person',
      choices: [
        { label: say('book.add.another'), to: { step: 'more' } },
        { label: say('book.add.enough'), to: { step: 'enough' }, look: 'main' },
        { label: say('book.add.what-waits'), to: { step: 'waits' } },
      ],
    }),
    state: draft,
  }
}
