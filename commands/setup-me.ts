import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { literalText, say, type Text } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { languageIds, languageName } from '#src/words/languages.ts'

/** A person's own language and units. */
export default defineCommand({
  name: 'setup me',
  may: 'crew',
  options: z.strictObject({
    language: z.enum(languageIds()).optional(),
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
            language: sayLanguage(language ?? person.language),
          }),
          say('setup.units', { units: say(`setup.units-${units ?? person.settings.units ?? 'crew'}`) }),
        ],
        audience: 'person',
      }),
    }
  },
})

/** A language by its own name, which its readers know. */
function sayLanguage(id: string | null): Text {
  return id === null ? say('setup.language-messenger') : literalText(languageName(id))
}
