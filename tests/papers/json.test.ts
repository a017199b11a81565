import { expect, test } from 'vitest'
import { Reader } from '#src/papers/order.ts'
import { recordFor } from '#src/papers/readers.ts'
import { canonicalJson } from '#src/record/canonical.ts'
import { textOfEntry } from '#src/record/chain.ts'
import { type RecordRead, readRecords } from '#src/records/read-record.ts'
import { WITHHELD } from '#src/records/withhold.ts'
import { crewStore } from '#src/store/crew-store.ts'
import { openDatabase } from '#src/store/open.ts'
import { readOnly } from '#src/store/transaction.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { english, product, spanish } from '#tests/record/build.ts'
import { drawnOne, ordered } from './orders.ts'

/** What a reader does not get is left out whole, and nothing else is. */
const shown = (record: object) =>
  Object.fromEntries(Object.entries(record).filter(([, value]) => value !== WITHHELD))

/** A record as the document has it, said once more without any haste. */
function spelledOut(reader: Reader, found: RecordRead): object {
  const { row, original, current, amendments, links } = recordFor(reader, found)
  const now = shown(current.record)
  const forInspector = reader === 'inspector'
  return {
    record: `R${row.number}`,
    ...(forInspector ? { complete: true, within_label: 'yes', late: false } : {}),
    standing: row.voidedAtMs === null ? 'standing' : 'voided',
    ...(forInspector ? { missing: [] } : {}),
    written: shown(original),
    now,
    amended: current.amended.filter((field) => field in now),
    amendments,
    ...(reader === 'treating' ? { first_aid: [] } : {}),
    chain: links.map(({ seq, hash, previous, entry }) =>
      forInspector
        ? {
            seq,
            kind: entry.kind,
            previous,
            hash,
            text: textOfEntry(entry),
            personal: Object.entries(entry.sealed.kept).map(([path, { salt, value }]) => ({
              path,
              salt,
              value: canonicalJson(value),
            })),
          }
        : { seq, hash },
    ),
  }
}

test.each(Reader.options)(
  'every byte of a record is as JSON.stringify writes it whole, for %s',
  async (reader) => {
    const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
    const order = await ordered(database, async (store, personId) => {
      const [before, after] = ['Demo customer Bramwell Oake', 'Demo customer Ottiline Fenn']
      await keepRecord(store, { personId, record: { notes: spanish('dijo "no" \\ después\n\u2028 😀') } })
      await keepRecord(store, {
        personId,
        record: { customerName: before, products: [product(), product()] },
      })
      await keepAmendment(store, 2, { changes: [{ field: 'customerName', before, after }] })
      await keepAmendment(store, 2, {
        number: 'R2-A2',
        why: english('no longer asked'),
        changes: [{ field: 'county', before: 'Demo County', after: null }],
      })
      await keepRecord(store, { personId, row: { voidedAtMs: 1 } })
      await keepAmendment(store, 3, { voids: true, changes: [] })
      await keepRecord(store, { personId })
      await store.records.removePersonal(4)
      // An amendment that does not follow from what stood before.
      await keepRecord(store, { personId })
      await keepAmendment(store, 5, { changes: [{ field: 'county', before: 'Elsewhere', after: 'There' }] })
      return { reader, format: 'json' }
    })
    const { text } = await drawnOne(database, order)
    const found = await readOnly(database, async (db) => {
      const store = crewStore(db, order.crewId)
      return readRecords(store, await store.records.list({}, { limit: 10 }))
    })
    await database.close()
    const lines = text.split('\n').slice(1, -2)
    const expected = found.map((one) => (one.kind === 'read' ? JSON.stringify(spelledOut(reader, one)) : ''))
    expect(lines.map((line) => line.replace(/,$/, ''))).toEqual(expected)
    expect(lines).toHaveLength(5)
    expect(() => JSON.parse(text)).not.toThrow()
  },
)
