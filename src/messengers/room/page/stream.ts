import type { Bot } from '#src/bot.ts'
import { say } from '#src/conversation/text.ts'
import type { Demo } from '../../../../data/demo/load.ts'
import type { WallClock } from '../practice-clock.ts'
import { entryOf, maySee, readSheet } from './entries.ts'
import { inWordsOf } from './in-words.ts'
import { type Viewer, viewerOf } from './people.ts'
import type { PageNews } from './shapes.ts'

export interface Watching {
  readonly bot: Bot
  readonly demo: Demo
  readonly clock: WallClock
  readonly token: string
}

/** What one open window has been told already. */
export interface Told {
  /** The newest answer that it shows; null while it shows none. */
  turn: number | null
  readonly closed: Set<number>
  now: string
}

/** What is new for a window since it was last told; null when nothing is. */
export async function newsFor(watching: Watching, key: string, told: Told): Promise<PageNews | null> {
  const { bot, demo } = watching
  const viewer = await viewerOf(bot, demo, key)
  if (viewer === null) return null
  const sheet = await readSheet(bot, viewer)
  const newest = sheet.turns.at(-1)?.id ?? 0
  // A page that has seen more than there is was looking at another store: it starts over.
  const isStart = told.turn === null || told.turn > newest
  const after = isStart ? 0 : (told.turn ?? 0)
  const seen = sheet.turns.filter((turn) => maySee(viewer, turn))
  const fresh = seen.filter(({ id }) => id > after)
  const entries = await Promise.all(fresh.map((turn) => entryOf(bot, viewer, sheet, turn)))
  const closed = seen.filter(({ id, isClosed }) => isClosed && id <= after && !told.closed.has(id))
  const now = sayNow(watching, viewer)
  const isNews = isStart || entries.length > 0 || closed.length > 0 || now.join() !== told.now
  told.turn = newest
  told.now = now.join()
  for (const { id, isClosed } of seen) if (isClosed) told.closed.add(id)
  return isNews ? { token: watching.token, isStart, entries, closed: closed.map(({ id }) => id), now } : null
}

export function sayNow({ bot, clock }: Watching, { locale, crew }: Viewer): [string, string] {
  const inWords = inWordsOf(bot.words, locale, crew.zone)
  const at = { atMs: clock.peekMs(), zone: crew.zone }
  return [
    inWords(say('room.now', { now: { ...at, style: 'time' } })),
    inWords(say('room.now', { now: { ...at, style: 'date' } })),
  ]
}
