import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { literalText, say, type Text } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { looksWhileOff, readOwnDays, sayOwnDays } from '#src/visits/own-days.ts'
import { languageIds, languageName } from '#src/words/languages.ts'

/** A person's own language, units and days of work. */
export default defineCommand({
  name: 'setup me',
  may: 'crew',
  options: z.strictObject({
    language: z.enum(languageIds()).optional(),
    units: z.enum(['us', 'metric']).optional(),
    work_days: z.string().min(1).max(60).optional(),
    days_off: z.string().min(1).max(400).optional(),
  }),
  async start({ language, units, ...typed }, tools) {
    const { person, store, today } = tools
    const read = readOwnDays(typed, person.settings.days, today)
    if (!read.ok)
      return {
        reply: reply('refusal', say('setup.cannot'), { lines: [...read.error], audience: 'person' }),
      }
    const days = read.value
    const settings = { ...person.settings, days, ...(units === undefined ? {} : { units }) }
    if (units !== undefined || Object.keys(typed).length > 0)
      await store.people.update(person.id, { settings })
    if (language !== undefined) await store.people.update(person.id, { language })
    return {
      reply: reply('answer', say('setup.me', { name: person.name }), {
        lines: [
          say('setup.language', {
            language: sayLanguage(language ?? person.language),
          }),
          say('setup.units', { units: say(`setup.units-${settings.units ?? 'crew'}`) }),
          ...sayOwnDays(days, tools),
          ...(typed.days_off === undefined ? [] : await looksWhileOff(days, tools)),
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
