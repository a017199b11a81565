import type { Bot } from '#src/bot.ts'
import { UNREADABLE } from '#src/conversation/ask.ts'
import type { Choice } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import { type Presented, present } from '#src/messengers/present.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { readOnly } from '#src/store/transaction.ts'
import type { ShownTurn } from '#src/store/turns.ts'
import { type Language, languages } from '#src/words/languages.ts'
import { sayAsked } from './asked.ts'
import { type InWords, inWordsOf, oneLine } from './in-words.ts'
import type { Viewer } from './people.ts'
import { pictureSize } from './picture-size.ts'
import type { PageEntry, PageFile } from './shapes.ts'

/** As many answers as a page looks back on. */
const LOOKED_BACK = 80

/** The crew's latest answers and the names of its people. */
export interface Sheet {
  readonly turns: readonly ShownTurn[]
  readonly byId: ReadonlyMap<number, ShownTurn>
  readonly names: ReadonlyMap<number, string>
}

export async function readSheet(bot: Bot, { crew }: Viewer): Promise<Sheet> {
  return readOnly(bot.database, async (db) => {
    const store = crewStore(db, crew.id)
    const turns = await store.turns.listLatest(LOOKED_BACK)
    const people = await store.people.list()
    return {
      turns,
      byId: new Map(turns.map((turn) => [turn.id, turn])),
      names: new Map(people.map(({ id, name }) => [id, name])),
    }
  })
}

/** Shared answers are everybody's; a private one belongs to whom it answers. */
export function maySee(viewer: Viewer, turn: ShownTurn): boolean {
  return turn.reply.audience === 'crew' || turn.personId === viewer.person.id
}

/** A kept answer, for one person. */
export async function entryOf(bot: Bot, viewer: Viewer, sheet: Sheet, turn: ShownTurn): Promise<PageEntry> {
  const { crew } = viewer
  const inWords = inWordsOf(bot.words, viewer.locale, crew.zone)
  const by = sheet.names.get(turn.personId) ?? ''
  const isMine = turn.personId === viewer.person.id
  const entry = await showAnswered(bot, viewer, {
    reply: turn.reply,
    number: turn.number,
    turnId: turn.id,
    language: { person: viewer.locale, crew: crew.language },
    zone: crew.zone,
    replayed: true,
    demo: crew.demo,
  })
  const mine = turn.reply.choices.map((choice) => mayPress(choice, viewer, isMine))
  const hasOthers = !isMine && (mine.includes(false) || turn.reply.form !== null)
  return {
    ...entry,
    at: inWords(
      say('page.asked-at', { at: { atMs: turn.createdAtMs, zone: crew.zone, style: 'date-time' } }),
    ),
    by: oneLine(by),
    asked: sayAsked(turn, sheet.byId, inWords, UNREADABLE),
    isClosed: turn.isClosed,
    choices: entry.choices.filter((_, at) => mine[at]),
    form: isMine ? entry.form : null,
    note: hasOthers ? inWords(say('page.buttons-of', { name: by })) : null,
    languages: turn.reply.audience === 'crew' ? otherLanguages(bot, viewer) : [],
  }
}

/** An answer that is kept nowhere, because the store cannot be written: only who asked ever sees it. */
export async function showAnswered(bot: Bot, viewer: Viewer, answered: Answered): Promise<PageEntry> {
  const { reply } = answered
  const inWords = inWordsOf(bot.words, viewer.locale, answered.zone)
  const shown = present(bot.words, answered, { locale: viewer.locale, escape: oneLine })
  const { figure, title } = splitTitle(shown)
  return {
    turn: answered.turnId,
    number: shown.number,
    numberLine: shown.numberLine,
    at: '',
    by: oneLine(viewer.person.name),
    asked: '',
    isPrivate: shown.audience === 'person',
    outcome: shown.outcome,
    mark: shown.mark,
    word: shown.word,
    figure,
    title,
    lines: [...shown.lines, ...namedFacts(bot, inWords, shown)],
    working: shown.working,
    safety: shown.safety.map(({ text }) => text),
    standing: shown.standing,
    demo: shown.demo,
    isClosed: false,
    choices: shown.choices.map(({ token, label, hint, look }, at) => ({
      token,
      label,
      hint,
      look,
      isRepeat: reply.choices[at]?.repeat ?? false,
    })),
    form: shown.form,
    files: await Promise.all(
      shown.files.map(async ({ name, alt }, at): Promise<PageFile> => {
        const file = reply.files[at]
        const address = `/files/${answered.turnId}/${at}?as=${viewer.person.key}`
        if (file === undefined || answered.turnId === null) return { name, alt, address, size: null }
        return { name, alt, address, size: await sizeOf(bot, viewer, file, answered.zone) }
      }),
    ),
    note: null,
    languages: [],
  }
}

/** Every language but the person's own: others read along, or over a shoulder. */
function otherLanguages(bot: Bot, { locale }: Viewer): readonly Language[] {
  const own = bot.words.closest(locale)
  return languages().filter(({ id }) => id !== own)
}

/** A picture that cannot be laid out costs only itself. */
async function sizeOf(bot: Bot, { locale }: Viewer, file: Answered['reply']['files'][number], zone: string) {
  try {
    return await pictureSize(file, { words: bot.words, blobs: bot.blobs, locale, zone })
  } catch (error) {
    bot.reportError(error, { file: file.name })
    return null
  }
}

function mayPress({ who = 'owner' }: Choice, viewer: Viewer, isMine: boolean): boolean {
  return who === 'crew' || (who === 'lead' ? viewer.person.leads : isMine)
}

/** `3.2 g`, `R1`, `−4 °F`; no name with a number somewhere in it. */
const FIGURE = /^\P{N}{0,2}\p{N}/u

/** The longest figure that the title begins with, so that it can stand large and alone. */
function splitTitle({ title, facts }: Presented): { figure: string | null; title: string } {
  const [figure] = facts
    .map(({ text }) => text)
    .filter(
      (text) =>
        FIGURE.test(text) && title.startsWith(text) && !/^[\p{L}\p{N}]/u.test(title.slice(text.length)),
    )
    .sort((one, other) => other.length - one.length)
  if (figure === undefined) return { figure: null, title }
  return {
    figure,
    title: title
      .slice(figure.length)
      .replace(/^[\s:;,.]+/, '')
      .trimEnd(),
  }
}

/** Facts with a name of their own that no line has said. */
function namedFacts(bot: Bot, inWords: InWords, { title, lines, facts }: Presented): string[] {
  const said = [title, ...lines].join('\n')
  return facts
    .filter(({ name, text }) => bot.words.source('en', `fact.${name}`) !== null && !said.includes(text))
    .map(({ name, text }) => `${inWords(say(`fact.${name}`))}: ${text}`)
}
