import { z } from 'zod'
import { field, textOf } from '#src/conversation/fields.ts'
import { type Choice, reply } from '#src/conversation/reply.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Answer, Event, Tools } from '#src/desk/command.ts'
import { addDays, type Day } from '#src/label/day.ts'
import { type LookEvent, next } from '#src/recheck/next.ts'
import { type Look, lookOn, nextLookOf } from '#src/recheck/plan.ts'
import { sayLookProblem } from '#src/recheck/words.ts'
import { workdayFrom } from '#src/recheck/workdays.ts'
import { recordName } from '#src/record/number.ts'
import { crewDaysOf } from './crew-days.ts'
import { dueFact } from './look-card.ts'
import { AtVisit, type OpenVisits, openVisit } from './open-visit.ts'
import { sayPlace } from './place.ts'

const LONGEST_REASON = 300
/** A week and a half of mornings to choose from. */
const DAYS_OFFERED = 8
const MOST_PEOPLE = 24

/** "Looked": somebody was there, and nothing is rated. */
export async function looked(event: Event, tools: Tools): Promise<Answer> {
  return change(event, tools, (look, { today, person }) => ({
    kind: 'looked',
    look: look.id,
    on: today,
    by: String(person.id),
  }))
}

/** On which of the next workdays instead? */
export async function askMove(event: Event, tools: Tools): Promise<Answer> {
  return ask(event, tools, say('visits.move-when'), (visit) =>
    comingWorkdays(tools).map(
      (day): Choice => ({
        label: say('visits.day', { day: { day } }),
        to: { step: 'moved', value: { visit, day } },
      }),
    ),
  )
}

function comingWorkdays({ crew, person, today }: Tools): Day[] {
  const { workdays } = crewDaysOf(crew, person)
  const days: Day[] = []
  let from = addDays(today, 1)
  while (days.length < DAYS_OFFERED) {
    const day = workdayFrom(from, workdays)
    if (day === null) return days
    days.push(day)
    from = addDays(day, 1)
  }
  return days
}

export async function moved(event: Event, tools: Tools): Promise<Answer> {
  const { day } = z.object({ day: z.string() }).parse(event.value)
  return change(event, tools, (look) => ({ kind: 'moved', look: look.id, to: day }))
}

/** Who of the crew goes instead? */
export async function askHandOver(event: Event, tools: Tools): Promise<Answer> {
  const people = await tools.store.people.list()
  return ask(event, tools, say('visits.hand-over-to'), (visit) =>
    people
      .filter(({ id }) => id !== tools.person.id)
      .slice(0, MOST_PEOPLE)
      .map(
        ({ id, name }): Choice => ({
          label: asTyped(name),
          to: { step: 'handed', value: { visit, person: id } },
        }),
      ),
  )
}

export async function handed(event: Event, tools: Tools): Promise<Answer> {
  const { person } = z.object({ person: z.int() }).parse(event.value)
  return change(event, tools, (look) => ({ kind: 'handed-over', look: look.id, to: String(person) }))
}

export async function askSkip(event: Event): Promise<Answer> {
  const { visit } = AtVisit.parse(event.value)
  return skipForm(visit)
}

function skipForm(visit: number, problem?: Text): Answer {
  return {
    reply: reply('question', say('visits.skip-why'), {
      lines: problem === undefined ? [] : [problem],
      form: {
        title: say('visits.skip'),
        open: say('common.fill-in'),
        fields: [field('visits.skip-form', 'reason', { required: true, maxLength: LONGEST_REASON })],
        to: { step: 'skipped', value: { visit } },
      },
      choices: [back(visit)],
      audience: 'person',
      safety: { about: ['recheck'] },
    }),
  }
}

export async function skipped(event: Event, tools: Tools): Promise<Answer> {
  const { visit } = AtVisit.parse(event.value)
  const reason = event.kind === 'submit' ? textOf(event.fields, 'reason') : ''
  if (reason === '') return skipForm(visit, sayLookProblem({ kind: 'reason-needed' }))
  return change(event, tools, (look, { today, person }) => ({
    kind: 'skipped',
    look: look.id,
    on: today,
    by: String(person.id),
    reason,
  }))
}

const back = (visit: number): Choice => ({
  label: say('common.back'),
  to: { step: 'open', value: { visit } },
})

async function ask(
  event: Event,
  tools: Tools,
  title: Text,
  choices: (visit: number) => readonly Choice[],
): Promise<Answer> {
  const { visit } = AtVisit.parse(event.value)
  const found = await openVisit(visit, tools)
  if (!found.ok) return found.ask
  return {
    reply: reply('question', title, {
      lines: [whichLook(found.value)],
      choices: [...choices(visit), back(visit)],
      audience: 'person',
      safety: { about: ['recheck'] },
    }),
  }
}

const whichLook = ({ application }: OpenVisits): Text =>
  say('visits.look', { place: sayPlace(application), record: recordName(application.row.number) })

/** Does one thing to the look that stands open, and says what comes next; or why it cannot be. */
async function change(
  event: Event,
  tools: Tools,
  make: (look: Look, tools: Tools) => LookEvent,
): Promise<Answer> {
  const visit = z.object({ visit: z.int() }).parse(event.value).visit
  const found = await openVisit(visit, tools)
  if (!found.ok) return found.ask
  const { visits } = found.value
  const look = lookOn(visits.plan, tools.today)
  if (look === null) return refuse(visit, say('recheck.problem-closed'))
  const done = make(look, tools)
  const step = next(visits.plan, done, crewDaysOf(tools.crew))
  if (!step.ok) return refuse(visit, sayLookProblem(step.error))
  await tools.store.visits.update(visits.id, { plan: step.value }, tools.nowMs)
  const coming = nextLookOf(step.value)
  return {
    reply: reply('answer', say(`visits.done-${done.kind}`), {
      lines: [
        whichLook(found.value),
        coming === null ? say('visits.no-look') : say('visits.next-look', { day: { day: coming.visitOn } }),
      ],
      facts: [
        { name: 'record', value: recordName(found.value.application.row.number) },
        ...(coming === null ? [] : [dueFact(coming)]),
      ],
      safety: { about: ['recheck'] },
    }),
  }
}

function refuse(visit: number, title: Text): Answer {
  return {
    reply: reply('refusal', title, {
      choices: [back(visit)],
      audience: 'person',
      safety: { about: ['recheck'] },
    }),
  }
}
