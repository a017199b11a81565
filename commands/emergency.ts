import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { emergencyCard } from '#src/emergency/card.ts'

/** Numbers to call, first aid and spill steps. Asks nothing and always goes through. */
export default defineCommand({
  name: 'emergency',
  may: 'crew',
  always: true,
  options: z.strictObject({}),
  start: async (_options, tools) => ({
    reply: await emergencyCard(tools),
    state: { personId: tools.person.id },
  }),
  state: z.strictObject({ personId: z.number().int() }),
  async next({ personId }, event, tools) {
    const { store, turn, nowMs, person } = tools
    if (event.step === 'exposed') {
      await store.incidents.open({ personId, turnId: turn.id, words: '', createdAtMs: nowMs })
      return { reply: await emergencyCard(tools), state: { personId } }
    }
    for (const incident of await store.incidents.listOpen(personId))
      await store.incidents.close(incident.id, person.id, nowMs)
    return {
      reply: reply('answer', say('emergency.over', { person: person.name }), {
        lines: [say('emergency.over-next')],
        safety: { about: ['emergency'] },
      }),
    }
  },
})
