import { canonicalJson } from '#src/record/canonical.ts'
import type { Link } from '#src/record/chain.ts'
import { textOfEntry } from '#src/record/chain.ts'
import { recordName } from '#src/record/number.ts'
import { WITHHELD } from '#src/records/withhold.ts'
import type { Reader } from './order.ts'
import type { PaperRecord, PaperSource } from './source.ts'

const FORM = 'Swardhand records, form 1'

/** The records as one JSON document, a record a line, with what anybody needs to check the chain. */
export async function* jsonText({ order, crew, holds, records }: PaperSource): AsyncGenerator<string> {
  const head = {
    form: FORM,
    crew: crew.name,
    demo: crew.demo,
    for: order.reader,
    asked: order.asked,
    holds,
    written_on: order.day,
    newest_link: order.until.head,
  }
  yield `${JSON.stringify(head).slice(0, -1)},"records":[`
  let separator = '\n'
  for await (const record of records()) {
    yield separator + JSON.stringify(jsonOf(record, order.reader))
    separator = ',\n'
  }
  yield '\n]}\n'
}

function jsonOf(record: PaperRecord, reader: Reader): object {
  const { row, site, links } = record
  const base = {
    record: recordName(row.number),
    ...(reader === 'inspector'
      ? { complete: row.complete, within_label: row.withinLabel, late: row.late }
      : {}),
    ...(reader === 'treating' || site === '' ? {} : { site }),
  }
  const chain = links.map((link) =>
    reader === 'inspector' ? wholeLink(link) : { seq: link.seq, hash: link.hash },
  )
  if (record.kind === 'unreadable') return { ...base, standing: 'unreadable', chain }
  const { original, current, amendments, lacks, entries } = record
  return {
    ...base,
    standing: row.voidedAtMs === null ? 'standing' : 'voided',
    ...(reader === 'inspector' ? { missing: lacks } : {}),
    written: shown(original),
    now: shown(current.record),
    amended: current.amended.filter((field) => Object.hasOwn(shown(current.record), field)),
    amendments,
    ...(reader === 'treating'
      ? { first_aid: entries.map(({ name, safety }) => ({ product: name, label: safety.firstAid ?? [] })) }
      : {}),
    chain,
  }
}

/** Fields that this reader gets; the others are left out whole. */
function shown(record: object): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== WITHHELD))
}

/** A link with the very text that is hashed, and the personal values beside it with their salts. */
function wholeLink({ seq, entry, previous, hash }: Link): object {
  return {
    seq,
    kind: entry.kind,
    previous,
    hash,
    text: textOf(entry),
    personal: Object.entries(entry.sealed.kept).map(([path, { salt, value }]) => ({
      path,
      salt,
      value: canonicalJson(value),
    })),
  }
}

/** Null for what cannot even be written as a text: somebody changed it outside the program. */
function textOf(entry: Link['entry']): string | null {
  try {
    return textOfEntry(entry)
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}
