import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'

const SHOWN = 60

/** Every product of the label book: in force, waiting for a second person, or due for a look at its label. */
export default defineCommand({
  name: 'label list',
  may: 'crew',
  options: z.strictObject({}),
  async start(_options, { store }) {
    const book = await store.labels.list()
    return {
      reply: reply('answer', say('book.list.title', { count: book.length }), {
        lines: book
          .slice(0, SHOWN)
          .map(({ name, live, confirmedOn }) =>
            live === null
              ? say('book.list.waiting', { name })
              : confirmedOn === null
                ? say('book.list.unconfirmed', { name })
                : say('book.list.live', { name, day: { day: confirmedOn } }),
          ),
        audience: 'person',
        safety: { about: ['measuring'] },
      }),
    }
  },
})
