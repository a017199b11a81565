import { z } from 'zod'
import { refill, textOf } from '#src/conversation/fields.ts'
import { type Choice, type Field, reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { type Answer, type Event, type FieldValue, StaleState, type Tools } from '#src/desk/command.ts'
import type { ScheduleRow, ScheduleTable } from '#src/recheck/table.ts'
import type { CrewSettings } from '#src/store/crews.ts'
import { scheduleOf } from './crew-days.ts'
import { readSpan } from './read-work.ts'

export type LookWindow = CrewSettings['lookWindows'][number]

const AtRow = z.strictObject({ row: z.string() })

/** One press for each kind of weed: its windows stand in a form, and no name has to be typed. */
export function rowChoices(table: ScheduleTable): Choice[] {
  return table.map(({ id }) => ({
    label: say(`visits.row-${id}`),
    to: { step: 'row', value: { row: id } },
    repeat: true,
  }))
}

/** The form with the windows of one row as they are now. */
export async function askRow(event: Event, { crew }: Pick<Tools, 'crew'>): Promise<Answer> {
  return rowForm(rowOf(event, crew))
}

export type RowRead =
  | { readonly ok: true; readonly row: string; readonly windows: readonly LookWindow[] }
  | { readonly ok: false; readonly ask: Answer }

/** The windows that were filled in for one row; an empty field leaves its look as it is. */
export function readRow(event: Event, { crew }: Pick<Tools, 'crew'>): RowRead {
  const row = rowOf(event, crew)
  const fields = event.kind === 'submit' ? event.fields : {}
  const problems: Text[] = []
  const windows = row.looks.flatMap((look): LookWindow[] => {
    const typed = textOf(fields, look.id)
    const span = typed === '' ? { fromDay: look.fromDay, toDay: look.toDay } : readSpan(typed)
    if (span === null) problems.push(say('visits.schedule-days', { typed }))
    const isSame = span?.fromDay === look.fromDay && span.toDay === look.toDay
    return span === null || isSame ? [] : [{ row: row.id, look: look.id, ...span }]
  })
  return problems.length > 0
    ? { ok: false, ask: rowForm(row, { problems, fields }) }
    : { ok: true, row: row.id, windows }
}

/** The form once more, with what was typed and why it cannot be. */
export function rowAgain(event: Event, problem: Text, { crew }: Pick<Tools, 'crew'>): Answer {
  return rowForm(rowOf(event, crew), {
    problems: [problem],
    fields: event.kind === 'submit' ? event.fields : {},
  })
}

function rowOf(event: Event, crew: Tools['crew']): ScheduleRow {
  const { row } = AtRow.parse(event.value)
  const found = scheduleOf(crew).find(({ id }) => id === row)
  if (found === undefined) throw new StaleState(`The schedule has no row ${row}`)
  return found
}

interface Refused {
  readonly problems: readonly Text[]
  readonly fields: Readonly<Record<string, FieldValue>>
}

function rowForm(row: ScheduleRow, refused?: Refused): Answer {
  const name = say(`visits.row-${row.id}`)
  const fields = row.looks.map(
    ({ id, purpose, fromDay, toDay }): Field => ({
      name: id,
      kind: 'text',
      label: say(`visits.row-form.${purpose}`),
      required: false,
      value: `${fromDay}-${toDay}`,
      maxLength: 20,
    }),
  )
  return {
    reply: reply('question', say('visits.row-when', { row: name }), {
      lines:
        refused === undefined ? [say('visits.row-how', { day: row.judgeFromDay })] : [...refused.problems],
      form: {
        title: name,
        open: say(refused === undefined ? 'common.fill-in' : 'common.correct-it'),
        fields: refused === undefined ? fields : refill(fields, refused.fields),
        to: { step: 'row-kept', value: { row: row.id } },
      },
      audience: 'person',
      safety: { about: ['recheck'] },
    }),
  }
}
