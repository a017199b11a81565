import { type Choice, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer as Answered, Tools } from '#src/desk/command.ts'
import type { KeptWalk } from '#src/store/walks.ts'
import { placeOf, placeWords } from './place.ts'

const LISTED = 20

/** Walks without an end, the latest first, each to go on with. */
export async function listWalks(tools: Tools, asked: string | undefined): Promise<Answered> {
  const walks = await tools.store.walks.listOpen(LISTED)
  const lines = await Promise.all(walks.map((walk) => lineOf(walk, tools)))
  const missing = asked !== undefined && /^\d+$/.test(asked)
  const title = missing
    ? say('identify.no-such-walk', { number: asked })
    : say('identify.open-walks', { count: walks.length })
  return {
    reply: reply('question', title, {
      lines,
      choices: [
        ...walks.map((walk): Choice => {
          const label = say('identify.resume', { number: String(walk.number) })
          return { label, to: { step: 'resume', value: walk.id }, repeat: true }
        }),
        { label: say('identify.new-walk'), to: { step: 'new' }, repeat: true },
      ],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: null,
  }
}

async function lineOf(walk: KeptWalk, tools: Tools): Promise<Text> {
  const place = await placeOf(walk.body, tools)
  const person = await tools.store.people.get(walk.personId)
  return say('identify.open-walk', {
    number: String(walk.number),
    status: say(`identify.status.${walk.status}`),
    place: placeWords(place) ?? say('identify.no-place'),
    person: person?.name ?? '',
    at: { atMs: walk.changedAtMs, zone: tools.crew.zone, style: 'date' },
  })
}
