import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'
import { hasLicense } from '#src/mixing/situation.ts'
import { readDay } from '#src/site/read-day.ts'

const options = z.strictObject({
  person: z.string().min(1).max(80).meta({ suggest: 'people' }),
  role: z.enum(['lead', 'crew']).optional(),
  license: z.string().min(1).max(40).optional(),
  expires: z.string().min(1).max(40).optional(),
  deputy: z.boolean().optional(),
})
type Options = z.infer<typeof options>

/** Who leads, who holds a license and until when, and who stands in for a licensed lead. */
export default defineCommand({
  name: 'setup person',
  may: 'lead',
  options,
  state: options,
  start: change,
  next: again(options, change),
})

async function change(given: Options, tools: Tools) {
  const { store, today } = tools
  const found = pick(given, 'person', given.person, await store.people.list())
  if (!found.ok) return found.ask
  const person = found.value
  const problems: Text[] = []
  const expiresOn =
    given.expires === undefined ? person.settings.license?.expiresOn : readDay(given.expires, today)
  if (given.expires !== undefined && expiresOn === null)
    problems.push(say('answers.day', { text: given.expires }))
  if (given.license !== undefined && expiresOn === undefined) problems.push(say('setup.license-expiry'))
  if (given.deputy === true && !hasLicense(tools.person, today))
    problems.push(say('setup.deputy-needs-license'))
  if (problems.length > 0)
    return { reply: reply('refusal', say('setup.cannot'), { lines: problems, audience: 'person' as const }) }
  const number = given.license ?? person.settings.license?.number
  const settings = {
    ...person.settings,
    license: number === undefined || expiresOn == null ? person.settings.license : { number, expiresOn },
    deputyOf: given.deputy === undefined ? person.settings.deputyOf : given.deputy ? tools.person.id : null,
  }
  await store.people.update(person.id, {
    settings,
    ...(given.role === undefined ? {} : { role: given.role }),
  })
  return {
    reply: reply('answer', say('setup.person', { name: person.name }), {
      lines: [
        say(`setup.role-${given.role ?? person.role}`),
        ...(settings.license === null
          ? []
          : [
              say('setup.license', {
                number: settings.license.number,
                day: { day: settings.license.expiresOn },
              }),
            ]),
        ...(settings.deputyOf === null ? [] : [say('setup.deputy')]),
      ],
      audience: 'person' as const,
      safety: { about: ['records'] },
    }),
  }
}
