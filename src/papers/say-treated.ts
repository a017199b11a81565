import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Json } from '#src/record/canonical.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { recordName } from '#src/record/number.ts'
import type { KeptFilter } from '#src/records/kept-filter.ts'
import { entriesOf } from '#src/records/lacks.ts'
import { printValue } from '#src/records/print-value.ts'
import { type RecordRead, readRecords } from '#src/records/read-record.ts'
import { sayDayOf } from '#src/records/say-row.ts'

/** Jobs that are told in the answer itself; all of them stand in the file. */
const TOLD = 3

/** What whoever treats somebody needs first, in the answer and not only in its file: the newest jobs. */
export async function sayTreated(filter: KeptFilter, { store }: Tools): Promise<readonly Text[]> {
  const rows = (await store.records.listNewest(filter, TOLD)).filter(({ voidedAtMs }) => voidedAtMs === null)
  const lines: Text[] = []
  for (const found of await readRecords(store, rows)) {
    if (found.kind === 'unreadable')
      lines.push(say('records.unreadable', { number: recordName(found.row.number) }))
    else lines.push(...sayJob(found), ...(await sayFirstAid(found, store)))
  }
  return lines
}

const or = (value: unknown, absent: string) => printValue(value as Json | undefined) || say(absent)

function sayJob({ row, current }: RecordRead): readonly Text[] {
  return (recorded(current.record.products) ?? []).map(({ name, registration, actives, amount }) =>
    say('papers.treated', {
      number: recordName(row.number),
      day: sayDayOf(row),
      product: name,
      registration: or(registration, 'papers.no-number'),
      actives: or(actives, 'papers.no-actives'),
      amount: or(amount, 'papers.no-amount'),
    }),
  )
}

/** First aid as each product's label prints it; where the label book has none, the label itself is sent for. */
async function sayFirstAid({ current }: RecordRead, store: Tools['store']): Promise<readonly Text[]> {
  const entries = await entriesOf(store, current.record)
  return (recorded(current.record.products) ?? []).flatMap(({ name }) => {
    const texts = entries.find((entry) => entry.name === name)?.safety.firstAid ?? []
    if (texts.length === 0) return [say('papers.no-first-aid', { product: name })]
    return texts.map(({ after, words }) =>
      say('papers.first-aid', { product: name, after: say(`papers.after.${after}`), words }),
    )
  })
}
