import { type Choice, type Reply, reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { daysBetween } from '#src/label/day.ts'
import { isPlanned, type Look, lookRatedOn, nextLookOf } from '#src/recheck/plan.ts'
import { sayLookFor, sayPurpose } from '#src/recheck/words.ts'
import { recordName } from '#src/record/number.ts'
import { type OpenVisits, openVisit } from './open-visit.ts'
import { sayPlace } from './place.ts'
import { ratingForm, scalePicture } from './rating-form.ts'
import { sayPlot } from './say-plot.ts'

/** One look, ready to be rated: where, what to look for, the scale in pictures, and what else can be done with it. */
export async function showLook(visit: number, tools: Tools): Promise<Answer> {
  const found = await openVisit(visit, tools)
  return found.ok ? { reply: lookCard(found.value, tools.today) } : found.ask
}

export function lookCard({ visits, application, plots }: OpenVisits, today: string): Reply {
  const look = lookRatedOn(visits.plan, today)
  const isTaken = look !== null && !isPlanned(look)
  const next = nextLookOf(visits.plan)
  const number = application.row.number
  return reply('question', say('visits.look', { place: sayPlace(application), record: recordName(number) }), {
    lines: [
      say('visits.days-after', {
        days: daysBetween(application.treatedOn, today),
        day: { day: application.treatedOn },
      }),
      ...(look === null
        ? [next === null ? say('visits.no-look') : say('visits.look-early', { from: { day: next.from } })]
        : [
            ...(look.again === undefined ? [] : [say('visits.look-again', { day: { day: look.again } })]),
            sayPurpose(look.purpose),
            ...(isTaken ? [say('visits.looked-today')] : seenFor(look, plots).map(sayLookFor)),
          ]),
      ...((isTaken || look === null) && next !== null
        ? [say('visits.next-look', { day: { day: next.visitOn } })]
        : []),
      ...plots.map(sayPlot),
    ],
    facts: [
      { name: 'record', value: recordName(number) },
      ...(next === null ? [] : [dueFact(isTaken || look === null ? next : look)]),
    ],
    form: ratingForm(plots, visits.id),
    choices: [...waysAround(visits.id, waysNow(look, next)), history(visits.id)],
    files: [scalePicture],
    audience: 'person',
    safety: { about: ['recheck'] },
  })
}

/** Where nothing was left untreated, nobody is sent to compare with it. */
function seenFor({ lookFor }: Look, plots: OpenVisits['plots']): Look['lookFor'] {
  const isCompared = plots.some(({ kind }) => kind === 'untreated')
  return lookFor.filter((one) => one !== 'untreated-spot' || isCompared)
}

/** When the next look is. */
export function dueFact({ visitOn }: Look) {
  return { name: 'due', value: visitOn, text: say('visits.day', { day: { day: visitOn } }) }
}

/** What can be done with a look besides rating it. */
const NOW = ['looked', 'move', 'hand-over', 'skip'] as const
/** And with the next one, on a day on which somebody has looked already. */
const LATER = ['move', 'hand-over'] as const
/** And with one whose time has not come. */
const EARLY = ['move', 'hand-over', 'skip'] as const

function waysNow(look: Look | null, next: Look | null): readonly string[] {
  if (next === null) return []
  if (look === null) return EARLY
  return isPlanned(look) ? NOW : LATER
}

function waysAround(visit: number, ways: readonly string[]): Choice[] {
  return ways.map((step) => ({ label: say(`visits.${step}`), to: { step, value: { visit } } }))
}

/** Another day for the next look. */
export const move = (visit: number): Choice => ({
  label: say('visits.move'),
  to: { step: 'move', value: { visit } },
})

export const history = (visit: number): Choice => ({
  label: say('visits.history'),
  to: { step: 'history', value: { visit } },
  repeat: true,
})
