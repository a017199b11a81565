import { readFileSync } from 'node:fs'
import path from 'node:path'
import { parse } from 'csv-parse/sync'
import { stringify } from 'csv-stringify/sync'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { columns, columnsFor, tableRows } from '#src/papers/columns.ts'
import { csvLine } from '#src/papers/csv.ts'
import { Reader } from '#src/papers/order.ts'
import { projectRoot } from '#src/project.ts'
import { recorded } from '#src/record/not-recorded.ts'
import { RecordDraft } from '#src/record/record.ts'
import { printTyped } from '#src/records/print-value.ts'
import { openDatabase } from '#src/store/open.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { english, product, units } from '#tests/record/build.ts'
import { drawnOne, ordered } from './orders.ts'

/** The table as another library reads it: a line an object, by the names of its first line. */
const readTable = (text: string): Record<string, string>[] => parse(text, { bom: true, columns: true })

async function tableOf(records: readonly Partial<RecordDraft>[]) {
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  try {
    const order = await ordered(database, async (store, personId) => {
      for (const record of records) await keepRecord(store, { personId, record })
      return {}
    })
    return (await drawnOne(database, order)).text
  } finally {
    await database.close()
  }
}

test('a record is read back by another library with every field in its column', async () => {
  const [line, ...more] = readTable(await tableOf([{}]))
  expect(more).toEqual([])
  expect(line).toMatchObject({
    record: 'R1',
    product_line: '1',
    standing: 'standing',
    complete: 'yes',
    within_label: 'yes',
    date: '2025-06-30',
    started_at: '2025-06-30 09:15 America/New_York',
    customer: 'Demo customer Ottiline Fenn',
    customer_address: '12 Demo Lane, Ospelwick, NC 00011',
    treated_area: '5000',
    treated_area_unit: 'ft2',
    product: 'Invented 75 WDG',
    registration: '9999999-1',
    active_ingredients: 'inventol 75 % ai',
    rate: '0.4 oz wt/1000 ft2',
    amount: '2',
    amount_unit: 'oz wt',
    wind_speed: '5 mph at 2025-06-30 09:10',
    license: 'DEMO-L1, expires 2026-12-31, 3B',
    keep_off_until: 'until dry',
    chain_link: '1',
    chain_hash: expect.stringMatching(/^[0-9a-f]{64}$/),
  })
  expect(Object.keys(line ?? {})).toEqual(columnsFor('inspector').map(({ name }) => name))
})

test('a line is what the library makes of its cells, whatever stands in them', () => {
  const cell = fc.oneof(
    fc.string(),
    fc.string({ unit: 'binary' }),
    fc.constantFrom(
      '=1+1',
      '-5',
      '+x',
      '@x',
      '\tx',
      '\rx',
      '＝1',
      'say "no"',
      'a,b',
      'a\r\nb',
      '',
      ' ',
      '0',
      'á',
    ),
  )
  fc.assert(
    fc.property(fc.array(cell, { minLength: 2, maxLength: 6 }), (cells) => {
      const options = { quoted: true, escape_formulas: true, record_delimiter: 'windows' } as const
      expect(csvLine(cells)).toBe(stringify([cells], options))
    }),
  )
})

test('a line for each product, and one for a record without any', async () => {
  const two = { products: [product(), product({ name: 'Other 4 EC', amount: units.gallons('1') })] }
  const lines = readTable(await tableOf([two, { products: { notRecorded: true } }]))
  expect(
    lines.map((line) => [line.record, line.product_line, line.product, line.amount, line.amount_unit]),
  ).toEqual([
    ['R1', '1', 'Invented 75 WDG', '2', 'oz wt'],
    ['R1', '2', 'Other 4 EC', '1', 'gal'],
    ['R2', '0', '', '', ''],
  ])
})

test('not recorded, removed and never asked are three things', async () => {
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  const order = await ordered(database, async (store, personId) => {
    await keepRecord(store, {
      personId,
      record: { county: { notRecorded: true }, treatedArea: { notRecorded: true } },
    })
    await store.records.removePersonal(1, ['customerName'])
    return {}
  })
  const [line] = readTable((await drawnOne(database, order)).text)
  await database.close()
  expect(line).toMatchObject({
    county: 'not recorded',
    treated_area: 'not recorded',
    treated_area_unit: '',
    customer: 'removed',
    sky: '',
  })
})

test('an amendment shows what stood before; the fields show what stands now', async () => {
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  const order = await ordered(database, async (store, personId) => {
    await keepRecord(store, { personId })
    await keepAmendment(store, 1)
    return {}
  })
  const [line] = readTable((await drawnOne(database, order)).text)
  await database.close()
  expect(line).toMatchObject({
    county: 'Other County',
    amendments: '1',
    amendment_history:
      'R1-A1 amends, 2025-07-01 08:00 America/New_York, by Demo Person Quillfern: typed the wrong county; County: was Demo County, now Other County',
  })
})

describe('a cell that a spreadsheet would run', () => {
  test.each(['=1+2', '+1', '-1', '@sum', '＝1', '\t=1', '\r\n=1', ' =1', '\u202e=1', '\u200b@x'])(
    '%j begins with an apostrophe',
    async (typed) => {
      const [line] = readTable(
        await tableOf([{ notes: english(`${typed}x`), use: `${typed}x`, customerName: `${typed}x` }]),
      )
      for (const cell of [line?.notes, line?.use, line?.customer]) expect(cell).toMatch(/^'/)
    },
  )

  test('whatever is typed, no cell begins with a sign that runs', async () => {
    const sign = fc.constantFrom('=', '+', '-', '@', '\t', '\r', '\n', '"', ',', ';', ' ', '\u202e', "'")
    const typed = fc
      .tuple(fc.array(sign, { maxLength: 4 }), fc.string({ unit: 'grapheme', maxLength: 20 }))
      .map(([signs, rest]) => signs.join('') + rest)
      .filter((text) => RecordDraft.shape.use.safeParse(text).success)
    await fc.assert(
      fc.asyncProperty(fc.array(typed, { minLength: 1, maxLength: 6 }), async (texts) => {
        const text = await tableOf(
          texts.map((one) => ({ use: one, county: one, placeWords: english(one), company: one })),
        )
        const cells = readTable(text).flatMap((line) => Object.values(line))
        expect(cells.filter((cell) => /^[=+\-@\t\r\uff1d\uff0b\uff0d\uff20]/.test(cell))).toEqual([])
        // biome-ignore lint/suspicious/noControlCharactersInRegex: looking for them is the purpose
        expect(cells.filter((cell) => /[\u0000-\u001f\u202a-\u202e\u2066-\u2069]/.test(cell))).toEqual([])
      }),
      { numRuns: 25 },
    )
  })
})

test('any record, written and parsed, has the cells that its columns give it', async () => {
  const quantity = (unit: 'gal' | 'qt') =>
    fc.integer({ min: 1, max: 99_999 }).map((value) => ({ value: String(value), unit }))
  const word = fc
    .string({ unit: 'grapheme', minLength: 1, maxLength: 30 })
    .filter((text) => RecordDraft.shape.use.safeParse(text).success && text.trim() === text)
  const records = fc.record<Partial<RecordDraft>>(
    {
      county: word,
      use: word,
      customerName: word,
      notes: word.map(english),
      treatedArea: fc.integer({ min: 1, max: 1e6 }).map((value) => units.square(String(value))),
      leftover: fc.oneof(quantity('gal'), fc.constant({ notRecorded: true as const })),
      totalMix: quantity('qt') as never,
      products: fc.array(fc.record({ name: word, amount: quantity('qt') }).map(product), {
        minLength: 1,
        maxLength: 3,
      }),
    },
    { requiredKeys: [] },
  )
  await fc.assert(
    fc.asyncProperty(fc.array(records, { minLength: 1, maxLength: 4 }), async (made) => {
      const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
      const order = await ordered(database, async (store, personId) => {
        for (const record of made) await keepRecord(store, { personId, record })
        return {}
      })
      const lines = readTable((await drawnOne(database, order)).text)
      await database.close()
      let at = 0
      for (const [n, record] of made.entries()) {
        const used = recorded(record.products) ?? [product()]
        for (const [place, one] of used.entries()) {
          const line = lines[at++]
          expect([line?.record, line?.product_line]).toEqual([`R${n + 1}`, String(place + 1)])
          const amount = recorded(one.amount)
          expect([line?.amount, line?.amount_unit]).toEqual([amount?.value, amount?.unit])
          const county = printTyped(recorded(record.county) ?? 'Demo County')
          expect([county, `'${county}`]).toContain(line?.county)
          const area = recorded(record.treatedArea) ?? units.square('5000')
          expect([line?.treated_area, line?.treated_area_unit]).toEqual([area.value, area.unit])
        }
      }
      expect(at).toBe(lines.length)
    }),
    { numRuns: 25 },
  )
})

describe('the columns', () => {
  test('each has a name of its own in small letters', () => {
    const names = columns.map(({ name }) => name)
    expect(new Set(names).size).toBe(names.length)
    expect(names.filter((name) => !/^[a-z][a-z0-9_]*$/.test(name))).toEqual([])
  })

  test('every field that somebody says has one, but ids of the store', () => {
    const shown = new Set(columns.map(({ field }) => field))
    const fields = Object.keys(RecordDraft.shape)
    expect(fields.filter((field) => !shown.has(field as never))).toEqual(['siteId', 'areaId'])
  })

  test('a reader gets some of them in the same order', () => {
    const all = columns.map(({ name }) => name)
    for (const reader of Reader.options) {
      const own = columnsFor(reader).map(({ name }) => name)
      expect(own).toEqual(all.filter((name) => own.includes(name)))
    }
  })

  test('docs/records.md tells each with its meaning and unit', () => {
    const text = readFileSync(path.join(projectRoot(), 'docs', 'records.md'), 'utf8')
    const lacking = columns.filter(
      ({ name, means, unit }) => !text.includes(`| \`${name}\` | ${means} | ${unit} |`),
    )
    expect(lacking.map(({ name, means, unit }) => `| \`${name}\` | ${means} | ${unit} |`).join('\n')).toBe('')
  })

  test('a record that cannot be read keeps its line', () => {
    const row = { number: 3, complete: false, withinLabel: 'unknown', late: false, voidedAtMs: null } as never
    const [line] = tableRows({ kind: 'unreadable', row, links: [], site: 'Somewhere' })
    const cells = Object.fromEntries(
      columns.map(({ name, cell }) => [name, line === undefined ? '' : cell(line)]),
    )
    expect(cells).toMatchObject({
      record: 'R3',
      standing: 'unreadable',
      site: 'Somewhere',
      county: '',
      product: '',
    })
  })
})
