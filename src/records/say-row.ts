import type { Fact } from '#src/conversation/reply.ts'
import type { Param, Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import type { RecordRow } from '#src/store/records.ts'
import type { Lacks } from './lacks.ts'
import type { RecordFound } from './read-record.ts'

/** How a record stands: complete or not, within its label or not, late, voided. Each has its own word. */
export function sayStanding(row: RecordRow): Text {
  const words: Text[] = [
    say(row.complete ? 'records.complete' : 'records.incomplete'),
    say(`records.label.${row.withinLabel}`),
    ...(row.late ? [say('records.late')] : []),
  ]
  const standing: Param = { all: words }
  return row.voidedAtMs === null ? say('records.standing', { standing }) : say('records.voided')
}

/** The day of an application, or that nobody wrote it down. */
export function sayDayOf({ appliedOn }: RecordRow): Param {
  return appliedOn === null ? say('records.no-day') : { day: appliedOn }
}

/** Product names of a record as it stands. */
export function productsIn(found: RecordFound): readonly string[] {
  if (found.kind === 'unreadable') return []
  return (recorded(found.current.record.products) ?? []).map(({ name }) => name)
}

/** The facts of one record; the second of a list and each further one carry their place. */
export function recordFacts(row: RecordRow, lacks: Lacks, place = 1): Fact[] {
  const after = place === 1 ? '' : `_${place}`
  return [
    {
      name: `record${after}`,
      value: recordName(row.number),
      text: say('records.name', { number: row.number }),
    },
    {
      name: `complete${after}`,
      value: row.complete,
      text: say(row.complete ? 'records.complete' : 'records.incomplete'),
    },
    {
      name: `within_label${after}`,
      value: row.withinLabel,
      text: say(`records.label.${row.withinLabel}`),
    },
    {
      name: `missing${after}`,
      value: lacks.missing.map(({ element }) => element).join(', '),
      text:
        lacks.missing.length === 0
          ? say('records.missing-none')
          : say('records.missing-list', {
              what: { all: lacks.missing.map(({ text }) => text), join: 'lines' },
            }),
    },
  ]
}

export const noLacks: Lacks = { missing: [], problems: [] }
