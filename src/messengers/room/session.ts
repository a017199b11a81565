import { randomUUID } from 'node:crypto'
import { stat } from 'node:fs/promises'
import path from 'node:path'
import type { Bot } from '#src/bot.ts'
import type { Ask, FileHandle, Speaker } from '#src/conversation/ask.ts'
import type { Answered } from '#src/desk/desk.ts'
import { type Presented, present } from '#src/messengers/present.ts'
import type { Deliver } from '#src/reminders/deliver.ts'
import { passTime } from './pass-time.ts'
import type { PracticeClock } from './practice-clock.ts'
import { readTyped, type Wanted } from './typed.ts'

/** What the room shows for one line: one reply, or several when the clock was moved. */
export interface Shown {
  readonly answered: Answered
  readonly presented: Presented
  /** Whose private message this is, when it is somebody else's: moving the clock shows what reached everybody. */
  readonly toKey?: string
}

export interface RoomSession {
  /** Answers one typed line. Never throws for what somebody typed. */
  type(text: string): Promise<readonly Shown[]>
  readonly last: Shown | null
  /**
   * Takes what was sent unasked while nobody typed; a number answers it from now on. What is private to someone else
   * is not heard.
   */
  readonly hear: Deliver
  /** Calls back for all that is heard. Returns what ends that. */
  onHeard(show: (shown: Shown) => void): () => void
}

/** One person in the practice room, with the last reply in front of them. */
export function openSession(parts: {
  readonly bot: Bot
  readonly clock: PracticeClock
  readonly speaker: Speaker
  readonly locale: string
}): RoomSession {
  const { bot, clock, speaker } = parts
  let last: Shown | null = null
  const listeners = new Set<(shown: Shown) => void>()

  const show = (answered: Answered, locale = parts.locale): Shown => ({
    answered,
    presented: present(bot.words, answered, { locale, escape: (typed) => typed }),
  })
  const answer = async (wanted: Wanted) => {
    const ask: Ask = { ...wanted, id: randomUUID(), by: speaker, atMs: clock.nowMs() }
    last = show(await bot.desk.answer(ask))
    return [last]
  }

  async function wait(ms: number): Promise<readonly Shown[]> {
    const due: Shown[] = []
    const sent = await passTime({
      bot,
      clock,
      crewKey: speaker.crewKey,
      ms,
      deliver: async ({ personKey }, answered) => {
        const isOthers = answered.reply.audience === 'person' && personKey !== speaker.personKey
        due.push({ ...show(answered), ...(isOthers ? { toKey: personKey } : {}) })
      },
    })
    const moved = await answer({ kind: 'run', command: 'clock', options: { due: sent } })
    last = due.at(-1) ?? last
    return [...moved, ...due]
  }

  return {
    get last() {
      return last
    },
    async hear({ personKey }, answered) {
      if (answered.reply.audience === 'person' && personKey !== speaker.personKey) return
      last = show(answered)
      for (const tell of listeners) tell(last)
    },
    onHeard(tell) {
      listeners.add(tell)
      return () => listeners.delete(tell)
    },
    async type(text) {
      const typed = await readTyped(text, {
        registry: bot.registry,
        last: last?.answered ?? null,
        fileNamed: handleOf,
      })
      if (typed.kind === 'nothing') return []
      if (typed.kind === 'language') return last === null ? [] : [show(last.answered, typed.language)]
      return typed.kind === 'wait' ? wait(typed.ms) : answer(typed.wanted)
    },
  }
}

/** A file on this machine, as a handle. */
async function handleOf(file: string): Promise<FileHandle> {
  const found = path.resolve(file)
  const bytes = await stat(found).then(
    (one) => (one.isFile() ? one.size : -1),
    () => -1,
  )
  const type = found.endsWith('.json') ? 'application/json' : 'application/octet-stream'
  return { name: path.basename(found), type, bytes: Math.max(bytes, 0), url: found }
}
