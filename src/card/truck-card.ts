import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { measuredOutput } from '#src/mixing/output.ts'
import { allowSettingsOf, isCovered } from '#src/mixing/situation.ts'
import type { BookEntry } from '#src/store/labels.ts'
import type { Person } from '#src/store/people.ts'
import type { Sprayer } from '#src/store/sprayers.ts'
import { buildCard } from './build-card.ts'
import { answerCard } from './card-reply.ts'
import { fillsOf } from './fills.ts'

/** Whose card it is, for which sprayer, of which products. */
export interface CardSubject {
  readonly sprayer: Sprayer
  readonly person: Person
  readonly book: readonly BookEntry[]
}

/** A card for the truck: so much of each product at the output that was measured in this person's hands. */
export async function truckCard(subject: CardSubject, tools: Tools): Promise<Answer> {
  const { sprayer, person, book } = subject
  const measured = await measuredOutput(sprayer, person, tools)
  if (measured.kind !== 'measured')
    return {
      reply: reply('hold', measured.because, {
        lines: [say('card.measure-first')],
        audience: 'person',
        safety: { about: ['measuring'] },
      }),
    }
  const fills = fillsOf(sprayer)
  const licensed = await isCovered({ ...tools, person })
  const card = buildCard(book, tools.crew, ({ confirmedOn }) => ({
    fills,
    output: measured.output,
    situation: {
      turfs: 'unknown',
      licensed,
      today: tools.today,
      lastConfirmedOn: confirmedOn,
      treatments: [],
      ...(tools.crew.state === null ? {} : { state: tools.crew.state }),
    },
    settings: allowSettingsOf(tools.crew),
  }))
  return { reply: answerCard({ ...subject, ...card, fills, measured }, tools) }
}
