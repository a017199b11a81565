import { z } from 'zod'
import type { Bot } from '#src/bot.ts'
import type { Ask, FileHandle, OptionValue } from '#src/conversation/ask.ts'
import type { Text } from '#src/conversation/text.ts'
import { addDays, dayIn, momentIn } from '#src/desk/clock.ts'
import type { Answered } from '#src/desk/desk.ts'
import type { Deliver } from '#src/reminders/deliver.ts'
import type { InTurn } from '#src/reminders/in-turn.ts'
import { passTime } from '../pass-time.ts'
import { asTyped, readTyped, type Wanted } from '../typed.ts'
import { entryOf, readSheet, showAnswered } from './entries.ts'
import { inWordsOf } from './in-words.ts'
import type { Viewer } from './people.ts'
import type { PageAnswer, PageRequest } from './shapes.ts'
import type { Watching } from './stream.ts'
import type { Uploads } from './uploads.ts'

const Upload = z.strictObject({ upload: z.string() })
const MOST_DAYS = 400

/** A request as the page sends it. Its id is made there, so that sending it again asks nothing twice. */
export const Sent = z.strictObject({
  id: z.uuid(),
  as: z.string().max(40),
  wants: z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('run'),
      command: z.string().max(80),
      options: z.record(z.string(), z.union([z.string(), Upload])),
    }),
    z.strictObject({ kind: z.literal('press'), token: z.string().max(40) }),
    z.strictObject({
      kind: z.literal('submit'),
      token: z.string().max(40),
      fields: z.record(z.string(), z.union([z.string(), z.array(z.string()), z.array(Upload)])),
    }),
    z.strictObject({
      kind: z.literal('line'),
      text: z.string(),
      last: z.number().int().nullable(),
    }),
    z.strictObject({ kind: z.literal('wait'), days: z.number().int().min(1).max(MOST_DAYS) }),
    z.strictObject({ kind: z.literal('morning') }),
  ]) satisfies z.ZodType<PageRequest>,
})
export type Sent = z.infer<typeof Sent>

export interface Asking extends Watching {
  readonly deliver: Deliver
  /** Keeps whatever else sends waiting while the clock is moved. */
  readonly takeTurn: InTurn
  readonly uploads: Uploads
}

/** Takes a request of the page the one way, and shows what came of it to who asked. */
export async function answerPage(asking: Asking, viewer: Viewer, { id, wants }: Sent): Promise<PageAnswer> {
  const wanted = await wantedOf(asking, viewer, wants)
  if (wanted === null) return { entries: [], problems: [] }
  if (typeof wanted === 'object' && 'language' in wanted) return readAgain(asking.bot, viewer, wanted)
  const due = typeof wanted === 'number' ? await pass(asking, viewer, wanted) : 0
  const ask: Ask = {
    ...(typeof wanted === 'number' ? { kind: 'run', command: 'clock', options: { due } } : wanted),
    id: `page:${viewer.person.key}:${id}`,
    by: viewer.speaker,
    atMs: asking.clock.nowMs(),
  }
  const answered = await asking.bot.desk.answer(ask)
  return {
    entries: [await entryFor(asking.bot, viewer, answered)],
    problems: problemsOf(asking.bot, viewer, answered),
  }
}

/** Lets time pass; every window finds by itself what was sent meanwhile. */
function pass(
  { bot, clock, deliver, takeTurn }: Asking,
  { speaker: { crewKey } }: Viewer,
  ms: number,
): Promise<number> {
  return takeTurn(() => passTime({ bot, clock, crewKey, ms, deliver }))
}

/** An answer that is read once more, in another language. */
interface Again {
  readonly answered: Answered
  readonly language: string
}

/** Once more without buttons: they still stand under the answer itself. */
async function readAgain(bot: Bot, viewer: Viewer, { answered, language }: Again): Promise<PageAnswer> {
  const entry = await showAnswered(bot, { ...viewer, locale: bot.words.closest(language) }, answered)
  return { entries: [{ ...entry, turn: null, choices: [], form: null }], problems: [] }
}

/** What is wanted: a request for the desk, milliseconds to pass, or nothing. */
async function wantedOf(
  { bot, clock, uploads }: Asking,
  viewer: Viewer,
  wants: PageRequest,
): Promise<Wanted | Again | number | null> {
  switch (wants.kind) {
    case 'press':
      return wants
    case 'wait':
      return wants.days * 86_400_000
    case 'morning':
      return untilMorning(clock.peekMs(), viewer.crew.zone)
    case 'run': {
      const shape = bot.registry.get(wants.command)?.options.shape ?? {}
      const options: Record<string, OptionValue> = {}
      for (const [name, value] of Object.entries(wants.options)) {
        const schema = Object.hasOwn(shape, name) ? shape[name] : undefined
        if (typeof value === 'string') options[name] = schema === undefined ? value : asTyped(schema, value)
        else options[name] = uploads.handleOf(value.upload) ?? gone(value.upload)
      }
      return { kind: 'run', command: wants.command, options }
    }
    case 'submit':
      return {
        kind: 'submit',
        token: wants.token,
        fields: Object.fromEntries(
          Object.entries(wants.fields).map(([name, value]) => [name, fieldOf(uploads, value)]),
        ),
      }
    case 'line': {
      const turn = wants.last === null ? null : await bot.desk.recall(wants.last, viewer.speaker)
      // A path that is typed here means nothing: files of the machine that serves the page stay where they are.
      const typed = await readTyped(wants.text, {
        registry: bot.registry,
        last: turn,
        fileNamed: async () => null,
      })
      if (typed.kind === 'nothing') return null
      if (typed.kind === 'language')
        return turn === null ? null : { answered: turn, language: typed.language }
      return typed.kind === 'wait' ? typed.ms : typed.wanted
    }
    default:
      return wants satisfies never
  }
}

type Fields = Extract<Wanted, { kind: 'submit' }>['fields']

function fieldOf(
  uploads: Uploads,
  value: string | readonly string[] | readonly { upload: string }[],
): Fields[string] {
  if (typeof value === 'string') return value
  return value.map((one) =>
    typeof one === 'string' ? one : (uploads.handleOf(one.upload) ?? gone(one.upload)),
  ) as string[] | FileHandle[]
}

/** A file that was forgotten before it was used: the intake will say that it cannot be read. */
const gone = (id: string): FileHandle => ({ name: 'file', type: '', bytes: 0, url: `upload:${id}` })

const MORNING = '07:00'

function untilMorning(nowMs: number, zone: string): number {
  const today = momentIn(zone, dayIn(zone, nowMs), MORNING)
  const next = today > nowMs ? today : momentIn(zone, addDays(dayIn(zone, nowMs), 1), MORNING)
  return next - nowMs
}

async function entryFor(bot: Bot, viewer: Viewer, answered: Answered) {
  const sheet = await readSheet(bot, viewer)
  const turn = sheet.turns.find(({ id }) => id === answered.turnId)
  return turn === undefined ? showAnswered(bot, viewer, answered) : entryOf(bot, viewer, sheet, turn)
}

/** What the desk and the commands say of one option. */
const ABOUT_OPTION: ReadonlySet<string> = new Set([
  'desk.option-missing',
  'desk.option-unknown',
  'desk.option-choice',
  'desk.option-long',
  'desk.option-wrong',
  'desk.option-problem',
])

/** Errors that name an option, in the answer to a command's form. */
function problemsOf(bot: Bot, viewer: Viewer, { reply, zone }: Answered): PageAnswer['problems'] {
  if (reply.outcome !== 'refusal' && reply.outcome !== 'question') return []
  const inWords = inWordsOf(bot.words, viewer.locale, zone)
  return reply.lines.flatMap((line: Text) => {
    const field = line.with?.option
    return ABOUT_OPTION.has(line.say) && typeof field === 'string' ? [{ field, text: inWords(line) }] : []
  })
}
