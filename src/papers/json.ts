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
  for await (const few of records()) {
    let text = ''
    for (const record of few) {
      text += separator + lineOf(record, order.reader)
      separator = ',\n'
    }
    yield text
  }
  yield '\n]}\n'
}

/** Parts of an object that are JSON already, by their names. A record's own are long: each is put into words once. */
type Parts = Readonly<Record<string, string>>

function joined(parts: Parts): string {
  let text = ''
  for (const [name, part] of Object.entries(parts)) text += `${text === '' ? '{' : ','}"${name}":${part}`
  return `${text}}`
}

const json = (value: unknown) => JSON.stringify(value)

function lineOf(record: PaperRecord, reader: Reader): string {
  const { row, site, links } = record
  const base: Parts = {
    record: json(recordName(row.number)),
    ...(reader === 'inspector'
      ? { complete: json(row.complete), within_label: json(row.withinLabel), late: json(row.late) }
      : {}),
    ...(reader === 'treating' || site === '' ? {} : { site: json(site) }),
  }
  const chain = `[${links.map((link) => (reader === 'inspector' ? wholeLink(link) : json({ seq: link.seq, hash: link.hash }))).join(',')}]`
  if (record.kind === 'unreadable') return joined({ ...base, standing: json('unreadable'), chain })
  const { original, current, amendments, lacks, entries } = record
  const now = shown(current.record)
  const written = json(original === current.record ? now : shown(original))
  return joined({
    ...base,
    standing: json(row.voidedAtMs === null ? 'standing' : 'voided'),
    ...(reader === 'inspector' ? { missing: json(lacks) } : {}),
    written,
    now: original === current.record ? written : json(now),
    amended: json(current.amended.filter((field) => Object.hasOwn(now, field))),
    amendments: json(amendments),
    ...(reader === 'treating'
      ? {
          first_aid: json(
            entries.map(({ name, safety }) => ({ product: name, label: safety.firstAid ?? [] })),
          ),
        }
      : {}),
    chain,
  })
}

/** Fields that this reader gets; the others are left out whole. */
function shown(record: object): object {
  if (!Object.values(record).includes(WITHHELD)) return record
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== WITHHELD))
}

/** A link with the very text that is hashed, and the personal values beside it with their salts. */
function wholeLink({ seq, entry, previous, hash }: Link): string {
  return json({
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
  })
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
