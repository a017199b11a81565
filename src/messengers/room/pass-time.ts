import type { Bot } from '#src/bot.ts'
import type { Deliver } from '#src/reminders/deliver.ts'
import { sendAll } from '#src/reminders/send-all.ts'
import type { PracticeClock } from './practice-clock.ts'
import { workMornings } from './work-mornings.ts'

/** Moves the practice clock and lives through the mornings that it passes. Returns how many messages were sent. */
export async function passTime(parts: {
  readonly bot: Bot
  readonly clock: PracticeClock
  readonly crewKey: string
  readonly ms: number
  readonly deliver: Deliver
}): Promise<number> {
  const { bot, clock, crewKey, ms, deliver } = parts
  const { database, registry, chooseSafety, reportError } = bot
  const fromMs = clock.nowMs()
  clock.forward(ms)
  const toMs = clock.nowMs()
  let sent = 0
  for (const nowMs of [...(await workMornings(database, crewKey, { fromMs, toMs })), toMs])
    sent += await sendAll({ database, nowMs: () => nowMs, registry, chooseSafety, reportError, deliver })
  return sent
}
