import { type Reply, reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Sprayer } from '#src/store/sprayers.ts'
import { saySetup } from './say-setup.ts'

/** A sprayer on one screen: its tank, what is in it, and who puts out how much. */
export async function sprayerCard(sprayer: Sprayer, tools: Tools): Promise<Reply> {
  const { store, crew } = tools
  const { tank, marks, tip, pressure } = sprayer.details
  const people = await store.people.list()
  const nameOf = (id: number) => people.find((one) => one.id === id)?.name ?? ''
  const [last] = await store.sprayers.listEvents(sprayer.id, 1)
  const measured = await Promise.all(
    people.map(async (person) => ({
      person,
      found: await store.sprayers.findCalibration(sprayer, person.id),
    })),
  )
  return reply('answer', say('sprayer.title', { name: sprayer.name, tank }), {
    lines: [
      ...(marks === null ? [] : [say('sprayer.marks', { marks })]),
      ...saySetup({ tip, pressure }),
      last === undefined
        ? say('sprayer.contents-unknown')
        : say(`sprayer.contents-${last.kind}`, {
            products: { all: last.details.products.map(({ name }) => name) },
            volume: last.details.volume ?? { value: '0', unit: 'gal' },
            person: nameOf(last.personId),
            at: { atMs: last.atMs, zone: crew.zone, style: 'date-time' },
          }),
      ...measured.flatMap(({ person, found }) =>
        found === undefined
          ? []
          : [
              say('sprayer.output', {
                person: person.name,
                output: found.output,
                day: { day: found.measuredOn },
              }),
            ],
      ),
    ],
    facts: [{ name: 'tank', value: Number(tank.value), unit: tank.unit }],
    audience: 'person',
    safety: { about: ['cleanup', 'leftover'] },
  })
}
