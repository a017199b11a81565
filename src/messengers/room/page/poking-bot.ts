import type { Bot } from '#src/bot.ts'
import type { Hub } from './hub.ts'

/** The same bot; whatever it answers, through whichever door, wakes the open pages. */
export function pokingBot(hub: Hub, bot: Bot): Bot {
  return {
    ...bot,
    desk: {
      ...bot.desk,
      async answer(ask) {
        const answered = await bot.desk.answer(ask)
        hub.poke()
        return answered
      },
    },
  }
}
