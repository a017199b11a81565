import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'

/** Only in the practice room: says what time it is now, and how many messages arrived while the clock was moved. */
export const clockCommand = defineCommand({
  name: 'clock',
  options: z.strictObject({ due: z.int().min(0).optional() }),
  may: 'crew',
  always: true,
  async start({ due = 0 }, { nowMs, crew }) {
    const now = { atMs: nowMs, zone: crew.zone, style: 'date-time' } as const
    return {
      reply: reply('answer', say('room.clock', { now }), {
        audience: 'person',
        lines: [say('room.due', { due })],
        facts: [
          { name: 'now', value: new Date(nowMs).toISOString(), text: say('room.now', { now }) },
          { name: 'due', value: due, text: say('room.due', { due }) },
        ],
      }),
    }
  },
})
