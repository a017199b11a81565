import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { type Answer, type Event, StaleState, type Tools } from '#src/desk/command.ts'
import { ScheduleTable } from '#src/recheck/table.ts'
import type { CrewSettings } from '#src/store/crews.ts'
import { scheduleOf } from './crew-days.ts'
import type { ScheduleOptions } from './options.ts'
import { readLeave } from './own-days.ts'
import { readHours, readRound, readSpan, readWeekdays } from './read-work.ts'
import { askRow, type LookWindow, readRow, rowAgain, rowChoices } from './schedule-row.ts'

/** Shows the schedule of looks and the crew's work, or changes them. What is planned already stays where it is. */
export async function schedule(given: ScheduleOptions, tools: Tools): Promise<Answer> {
  const read = readChange(given, tools)
  if (!read.ok) return refuse(read.problems)
  return (await change(read.change, tools)) ?? refuse([say('visits.schedule-apart')])
}

/** A press on a kind of weed opens its windows; the form keeps them. */
export async function nextSchedule(event: Event, tools: Tools): Promise<Answer> {
  if (event.step === 'row') return askRow(event, tools)
  if (event.step !== 'row-kept') throw new StaleState(`Cannot go on with the schedule: no step ${event.step}`)
  const read = readRow(event, tools)
  if (!read.ok) return read.ask
  const { lookWindows } = tools.crew.settings
  const isNew = (old: LookWindow) => read.windows.every((one) => one.row !== old.row || one.look !== old.look)
  const changed =
    read.windows.length === 0 ? {} : { lookWindows: [...lookWindows.filter(isNew), ...read.windows] }
  return (await change(changed, tools)) ?? rowAgain(event, say('visits.schedule-apart'), tools)
}

/** Keeps what is changed and shows how it stands now; null when the looks of a row no longer stand in order. */
async function change(changed: Partial<CrewSettings>, { crew, updateCrew }: Tools): Promise<Answer | null> {
  const settings = { ...crew.settings, ...changed }
  const table = ScheduleTable.safeParse(scheduleOf({ settings }))
  if (!table.success) return null
  const isChanged = Object.keys(changed).length > 0
  if (isChanged) await updateCrew({ settings })
  return {
    reply: reply('answer', say(isChanged ? 'visits.schedule-changed' : 'visits.schedule'), {
      lines: [
        ...table.data.map(({ id, looks, judgeFromDay }) =>
          say('visits.schedule-row', {
            row: say(`visits.row-${id}`),
            looks: {
              all: looks.map(({ purpose, fromDay, toDay }) =>
                say(`visits.look-days-${purpose}`, { from: fromDay, to: toDay }),
              ),
            },
            day: judgeFromDay,
          }),
        ),
        ...workLines(settings),
        say('visits.schedule-press'),
      ],
      choices: rowChoices(table.data),
      audience: 'person',
      safety: { about: ['recheck'] },
    }),
  }
}

function workLines({
  startsAt,
  endsAt,
  workdays,
  round,
  donePercent,
  leastInjuryStep,
}: CrewSettings): Text[] {
  return [
    say('visits.work', {
      days: { all: workdays.weekdays.map((day) => say(`visits.weekday-${day}`)) },
      from: startsAt,
      to: endsAt,
    }),
    ...(workdays.daysOff.length === 0
      ? []
      : [say('visits.days-off', { days: { all: workdays.daysOff.map((day) => ({ day })) } })]),
    ...(round === null
      ? []
      : [
          round.kind === 'every'
            ? say('visits.round-every', { days: round.days, day: { day: round.from } })
            : say('visits.round-on', { days: { all: round.days.map((day) => ({ day })) } }),
        ]),
    say('visits.limits', { done: donePercent, injury: leastInjuryStep }),
  ]
}

function refuse(problems: readonly Text[]): Answer {
  return {
    reply: reply('refusal', say('visits.schedule-cannot'), {
      lines: [...problems],
      audience: 'person',
      safety: { about: ['recheck'] },
    }),
  }
}

type Read =
  | { readonly ok: true; readonly change: Partial<CrewSettings> }
  | { readonly ok: false; readonly problems: readonly Text[] }

function readChange(given: ScheduleOptions, { crew: { settings }, today }: Tools): Read {
  const problems: Text[] = []
  const take = <T>(
    option: keyof ScheduleOptions,
    read: (text: string) => T | null | undefined,
  ): T | undefined => {
    const text = given[option]
    if (typeof text !== 'string') return undefined
    const found = read(text)
    if (found != null) return found
    problems.push(say(`visits.schedule-${option}`, { typed: text }))
    return undefined
  }
  const weekdays = take('work_days', readWeekdays)
  const hours = take('hours', readHours)
  const daysOff = take('days_off', (text) => readLeave(text, today))
  // A round that is taken back is wrapped, so that it is told from one that cannot be read.
  const round = take('round', (text) => {
    const found = readRound(text, today)
    return found === undefined ? null : { found }
  })
  const span = take('days', readSpan)
  const window = readWindow(given, settings, span, problems)
  if (problems.length > 0) return { ok: false, problems }
  return {
    ok: true,
    change: {
      ...(weekdays === undefined && daysOff === undefined
        ? {}
        : {
            workdays: {
              weekdays: weekdays ?? settings.workdays.weekdays,
              daysOff: daysOff ?? settings.workdays.daysOff,
            },
          }),
      ...hours,
      ...(round === undefined ? {} : { round: round.found }),
      ...(window === null ? {} : { lookWindows: window }),
      ...(given.done === undefined ? {} : { donePercent: given.done }),
      ...(given.injury === undefined ? {} : { leastInjuryStep: given.injury }),
    },
  }
}

/** One window of one row; weed, look and days belong together. */
function readWindow(
  { weed, look, days }: ScheduleOptions,
  settings: CrewSettings,
  span: { readonly fromDay: number; readonly toDay: number } | undefined,
  problems: Text[],
): CrewSettings['lookWindows'] | null {
  if (weed === undefined && look === undefined && days === undefined) return null
  const table = scheduleOf({ settings })
  const row = table.find(({ id }) => id === weed?.toLowerCase().trim())
  const found = row?.looks.find(({ id }) => id === look?.toLowerCase().trim())
  if (row === undefined)
    problems.push(say('visits.schedule-weed', { rows: { all: table.map(({ id }) => ({ literal: id })) } }))
  else if (found === undefined)
    problems.push(
      say('visits.schedule-look-which', { looks: { all: row.looks.map(({ id }) => ({ literal: id })) } }),
    )
  else if (days === undefined) problems.push(say('visits.schedule-days-missing'))
  if (row === undefined || found === undefined || span === undefined) return null
  const others = settings.lookWindows.filter((one) => one.row !== row.id || one.look !== found.id)
  return [...others, { row: row.id, look: found.id, ...span }]
}
