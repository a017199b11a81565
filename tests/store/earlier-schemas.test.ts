import { expect, test } from 'vitest'
import { NEWEST_SCHEMA } from '#src/store/migrate.ts'
import { openDatabase } from '#src/store/open.ts'
import { type Cells, rowsOf } from '#src/store/rows.ts'
import { schemaAt, type TableShape } from '#src/store/schema-at.ts'
import { anyRows, fillAny } from '#tests/helpers/any-rows.ts'
import { eachEngine } from '#tests/helpers/engines.ts'

const VERSIONS = Array.from({ length: NEWEST_SCHEMA }, (_, at) => at + 1)

test('every schema knows the tables of the one before it', async () => {
  const names = await Promise.all(VERSIONS.map(async (one) => (await schemaAt(one)).map(({ name }) => name)))
  for (const [at, tables] of names.entries())
    expect(tables).toEqual(expect.arrayContaining(names[at - 1] ?? []))
  expect(names[0]).toContain('turns')
})

eachEngine('a store of an earlier schema', (place) => {
  test.each(VERSIONS)('schema %i, full of rows, is brought up to date with all of them', async (version) => {
    const address = await place.address()
    const rows = await anyRows(version)
    expect(rows.size).toBeGreaterThan(15)
    const before = await openDatabase(address, 'practice', version)
    await fillAny(before, rows)
    await before.close()

    const after = await place.open(address)
    const meta = await after.db.selectFrom('meta').select('value').where('name', '=', 'schema').execute()
    expect(meta).toEqual([{ value: String(NEWEST_SCHEMA) }])
    for (const [shape, cells] of rows) {
      const kept: Cells[] = []
      for await (const page of rowsOf(after.db, shape)) kept.push(...page)
      expect([shape.name, kept]).toEqual([shape.name, cells])
    }
    // Tables that came later are there, and empty.
    for (const shape of (await schemaAt(NEWEST_SCHEMA)).filter(({ name }) => !has(rows, name))) {
      const found: Cells[] = []
      for await (const page of rowsOf(after.db, shape)) found.push(...page)
      expect([shape.name, found]).toEqual([shape.name, shape.name === 'meta' ? found : []])
    }
  })
})

const has = (rows: ReadonlyMap<TableShape, unknown>, table: string) =>
  [...rows.keys()].some(({ name }) => name === table)
