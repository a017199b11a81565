import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'

/** A person's own language and units. */
export default defineCommand({
  name: 'setup me',
  may: 'crew',
  options: z.strictObject({
    language: z.enum(['en', 'es']).optional(),
    units: z.enum(['us', 'metric']).optional(),
  }),
  async start({ language, units }, { person, store }) {
    await store.people.update(person.id, {
      ...(language === undefined ? {} : { language }),
      ...(units === undefined ? {} : { settings: { ...person.settings, units } }),
    })
    return {
      reply: reply('answer', say('setup.me', { name: person.name }), {
        lines: [
          say('setup.language', {
            language: say(`setup.language-${language ?? person.language ?? 'messenger'}`),
          }),
          say('setup.units', { units: say(`setup.units-${units ?? person.settings.units ?? 'crew'}`) }),
        ],
        audience: 'person',
      }),
    }
  },
})
