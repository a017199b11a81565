import { existsSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { drawPaper } from '#src/papers/draw-paper.ts'
import { openDatabase } from '#src/store/open.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { aSite } from '#tests/helpers/rows.ts'
import { drawn, drawnOne, ordered, words } from './orders.ts'

const DAYS = ['2025-05-30', '2025-06-01', '2025-06-30', '2025-07-01'] as const
const numbersIn = (text: string) => [...text.matchAll(/"(R\d+)","/g)].map((match) => match[1])

eachEngine('a paper', (place) => {
  const overDays = async () => {
    const database = await place.open()
    const order = await ordered(database, async (store, personId) => {
      for (const date of DAYS) await keepRecord(store, { personId, record: { date } })
      await keepRecord(store, { personId, record: { date: { notRecorded: true } } })
      return {}
    })
    return { database, order }
  }

  test('that may leave whole is one file', async () => {
    const { database, order } = await overDays()
    const file = await drawnOne(database, order, { rows: 2 })
    expect(file).toMatchObject({ name: 'records-inspector-2025-07-04.csv', type: 'text/csv' })
    expect(numbersIn(file.text)).toEqual(['R1', 'R2', 'R3', 'R4', 'R5'])
  })

  test('that is too large comes as one file for each month, and one for records without a day', async () => {
    const { database, order } = await overDays()
    const { size } = await drawnOne(database, order)
    const files = await drawn(database, order, { mostBytes: size - 1 })
    expect(files.map(({ name, text }) => [name, numbersIn(text)])).toEqual([
      ['records-inspector-2025-07-04-no-day.csv', ['R5']],
      ['records-inspector-2025-07-04-2025-05.csv', ['R1']],
      ['records-inspector-2025-07-04-2025-06.csv', ['R2', 'R3']],
      ['records-inspector-2025-07-04-2025-07.csv', ['R4']],
    ])
  })

  test('a month that is still too large comes in parts, and one record alone is never split', async () => {
    const { database, order } = await overDays()
    const files = await drawn(database, order, { mostBytes: 1 })
    expect(
      files.map(({ name, text }) => [name.slice('records-inspector-2025-07-04-'.length), numbersIn(text)]),
    ).toEqual([
      ['no-day.csv', ['R5']],
      ['2025-05.csv', ['R1']],
      ['2025-06-part-1.csv', ['R2']],
      ['2025-06-part-2.csv', ['R3']],
      ['2025-07.csv', ['R4']],
    ])
  })

  test('no part is more than may leave, and together they hold every record once', async () => {
    const database = await place.open()
    const order = await ordered(database, async (store, personId) => {
      for (let at = 0; at < 12; at++) await keepRecord(store, { personId, record: { date: '2025-06-30' } })
      return {}
    })
    const { size } = await drawnOne(database, order)
    const files = await drawn(database, order, { mostBytes: Math.floor(size / 3) })
    expect(files.length).toBeGreaterThan(2)
    expect(files.every((file) => file.size <= size / 3)).toBe(true)
    expect(files.flatMap(({ text }) => numbersIn(text))).toEqual(
      Array.from({ length: 12 }, (_, at) => `R${at + 1}`),
    )
  })

  test('a PDF of many records comes in parts, since each of its pages is held until its end', async () => {
    const { database, order } = await overDays()
    const files = await drawn(database, { ...order, format: 'pdf' }, { onOnePdf: 1 })
    expect(files.map(({ name }) => name.slice('records-inspector-2025-07-04-'.length))).toEqual([
      'no-day.pdf',
      '2025-05.pdf',
      '2025-06-part-1.pdf',
      '2025-06-part-2.pdf',
      '2025-07.pdf',
    ])
  })

  test('by months keeps to the days that were asked for', async () => {
    const { database, order } = await overDays()
    const asked = { ...order, filter: { from: '2025-05-31', to: '2025-06-29' } }
    expect((await drawn(database, asked, { mostBytes: 1 })).map(({ text }) => numbersIn(text))).toEqual([
      ['R2'],
    ])
  })

  test('shows what was kept when it was ordered, and nothing later', async () => {
    const database = await place.open()
    let personId = 0
    const order = await ordered(database, async (store, id) => {
      personId = id
      await keepRecord(store, { personId })
      return {}
    })
    await ordered(database, async (store) => {
      await keepRecord(store, { personId })
      await keepAmendment(store, 1)
      return {}
    })
    const { text } = await drawnOne(database, order)
    expect(numbersIn(text)).toEqual(['R1'])
    expect(text).not.toContain('R1-A1')
  })

  test('of one crew never holds a record of another, whatever it is asked for', async () => {
    const database = await place.open()
    const fill = (mark: string) =>
      ordered(
        database,
        async (store, personId) => {
          const site = await aSite(store, { name: `Place ${mark}` })
          await keepRecord(store, {
            personId,
            record: { county: `County ${mark}`, customerName: `Customer ${mark}` },
          })
          await keepRecord(store, { personId, record: { siteId: site.id, county: `County ${mark}` } })
          await keepAmendment(store, 1, {
            changes: [{ field: 'county', before: `County ${mark}`, after: `Other ${mark}` }],
          })
          return {}
        },
        { key: `test:${mark}`, name: `Crew ${mark}` },
      )
    const [one, two] = [await fill('one'), await fill('two')]
    for (const format of ['csv', 'json'] as const)
      for (const reader of ['inspector', 'customer', 'treating'] as const)
        for (const filter of [
          {},
          { siteId: 1 },
          { siteId: 2 },
          { personId: 1 },
          { personId: 2 },
          { number: 1 },
        ]) {
          const texts = await drawn(database, { ...one, format, reader, filter })
          for (const { text } of texts) expect(text).not.toMatch(/(Crew|Place|County|Customer|Other) two/)
        }
    expect((await drawnOne(database, { ...two, format: 'json' })).text).toContain('County two')
  })
})

test('nothing of a paper stays on the disk, also when nobody takes the rest of it', async () => {
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  const order = await ordered(database, async (store, personId) => {
    for (const date of DAYS) await keepRecord(store, { personId, record: { date } })
    return {}
  })
  const [whole] = await drawn(database, order)
  expect(existsSync(path.dirname(whole?.path ?? ''))).toBe(false)
  let left = ''
  for await (const file of drawPaper('records', order, { database, words, mostBytes: 1 })) {
    left = file.path
    expect(existsSync(left)).toBe(true)
    break
  }
  expect(existsSync(path.dirname(left))).toBe(false)
  await database.close()
})

test('a paper that there is not is an error', async () => {
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  const order = await ordered(database, async () => ({}))
  const draw = async (name: string, data: unknown) => {
    for await (const _ of drawPaper(name, data, { database, words, mostBytes: 1 }))
      throw new Error('A file came')
  }
  await expect(draw('none', order)).rejects.toThrow('Cannot write a paper called "none"')
  await expect(draw('records', { ...order, crewId: 99 })).rejects.toThrow('a crew that there is not')
  await expect(draw('records', {})).rejects.toThrow()
  await database.close()
})
