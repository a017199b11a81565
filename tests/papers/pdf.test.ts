import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { describe, expect, onTestFinished, test } from 'vitest'
import type { PaperOrder } from '#src/papers/order.ts'
import { printable } from '#src/papers/printable.ts'
import { totalling } from '#src/papers/totals.ts'
import { printHead } from '#src/record/chain.ts'
import { RecordDraft } from '#src/record/record.ts'
import type { CrewStore } from '#src/store/crew-store.ts'
import { openDatabase } from '#src/store/open.ts'
import { keepAmendment, keepRecord } from '#tests/helpers/keep-record.ts'
import { aSite } from '#tests/helpers/rows.ts'
import { english, product, record, units } from '#tests/record/build.ts'
import { drawnOne, ordered } from './orders.ts'

/** Tools that read a PDF as anybody would; they come with Debian's poppler-utils. */
const hasPoppler = spawnSync('pdftotext', ['-v']).error === undefined
const isAsked = process.env.REQUIRE_POPPLER !== undefined

type Fill = (store: CrewStore, personId: number) => Promise<Partial<PaperOrder>>

async function pdfOf(fill: Fill, crew: Parameters<typeof ordered>[2] = {}) {
  const folder = mkdtempSync(path.join(tmpdir(), 'swardhand-pdf-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  const database = await openDatabase({ engine: 'sqlite', path: ':memory:' }, 'practice')
  const order = await ordered(
    database,
    async (...given) => ({ format: 'pdf', ...(await fill(...given)) }),
    crew,
  )
  const place = path.join(folder, 'paper.pdf')
  await drawnOne(database, order, { keepIn: place })
  await database.close()
  return { place, order, bytes: readFileSync(place) }
}

const textIn = (place: string) => execFileSync('pdftotext', ['-layout', place, '-'], { encoding: 'utf8' })
const oneLine = (text: string) => text.replace(/\s+/g, ' ')

test('a paper is a whole PDF, also of no record at all', async () => {
  const { bytes } = await pdfOf(async () => ({}))
  expect(bytes.subarray(0, 5).toString()).toBe('%PDF-')
  expect(bytes.subarray(-6).toString()).toContain('%%EOF')
})

test('whatever is typed, a paper is written to its end', async () => {
  const typed = fc
    .string({ unit: 'binary', minLength: 1, maxLength: 60 })
    .filter((text) => RecordDraft.shape.use.safeParse(text).success)
  await fc.assert(
    fc.asyncProperty(fc.array(typed, { minLength: 1, maxLength: 4 }), async (texts) => {
      const { bytes } = await pdfOf(async (store, personId) => {
        for (const use of texts)
          await keepRecord(store, { personId, record: { use, placeWords: english(use) } })
        return {}
      })
      expect(bytes.subarray(-6).toString()).toContain('%%EOF')
    }),
    { numRuns: 15 },
  )
})

test.each([
  ['Ñandú Łukasz Ελένη Дмитрий', 'Ñandú Łukasz Ελένη Дмитрий'],
  ['张伟', '[U+5F20][U+4F1F]'],
  ['seed \u{1F331}', 'seed [U+1F331]'],
  ['a\u202eb\u0000c\td', 'abc d'],
])('“%s” is printed as “%s”', (typed, printed) => {
  expect(printable(typed)).toBe(printed)
})

describe.skipIf(!hasPoppler && !isAsked)('what a reader finds in a paper', () => {
  test('the crew, each record with its fields, amendments, totals, pages, the chain and a line to sign on', async () => {
    const { place, order } = await pdfOf(
      async (store, personId) => {
        const site = await aSite(store, { name: 'Invented Row 5' })
        await keepRecord(store, { personId, record: { siteId: site.id, customerName: 'Demo Łukasz Ñandú' } })
        await keepAmendment(store, 1)
        await keepRecord(store, {
          personId,
          record: { siteId: site.id },
          row: { complete: false, late: true },
        })
        await keepRecord(store, { personId, row: { voidedAtMs: 1 } })
        return {}
      },
      { name: 'Invented crew of Ospelwick', demo: true },
    )
    const text = textIn(place)
    const pages = text.split('\f').filter((page) => page.trim() !== '')
    for (const [at, page] of pages.entries()) {
      expect(page).toContain('Invented crew of Ospelwick')
      expect(page).toContain('DEMO DATA')
      expect(page).toContain(`Page ${at + 1}`)
      expect(page).toContain(printHead(order.until.head ?? { seq: 0, hash: '' }))
    }
    const line = oneLine(text)
    for (const part of [
      'R1 · 2025-06-30 · Invented Row 5',
      'Complete, within the label',
      'NOT complete, within the label, written late',
      'VOIDED',
      'Reg. no. 9999999-1',
      'amount 2 oz wt',
      'Demo Łukasz Ñandú',
      'R1-A1 amends, 2025-07-01 08:00 America/New_York, by Demo Person Quillfern: typed the wrong county',
      'Demo County Other County',
      'Totals by product and site',
      'Invented 75 WDG 9999999-1 Invented Row 5 2 4 oz wt 10000 ft2',
      `3 records on ${pages.length} pages`,
      'Signature, for Invented crew of Ospelwick',
    ])
      expect(line).toContain(part)
  })

  test('no demo mark on the papers of a real crew', async () => {
    const { place } = await pdfOf(async (store, personId) => {
      await keepRecord(store, { personId })
      return {}
    })
    expect(textIn(place)).not.toContain('DEMO DATA')
  })

  test('a record that goes on over a page says so at the top of the next', async () => {
    const { place } = await pdfOf(async (store, personId) => {
      await keepRecord(store, { personId, record: { notes: english('a long story. '.repeat(140)) } })
      for (const at of Array(12).keys()) {
        const [before, after] =
          at % 2 === 0 ? ['Demo County', 'Other County'] : ['Other County', 'Demo County']
        await keepAmendment(store, 1, {
          number: `R1-A${at + 1}`,
          changes: [{ field: 'county', before, after }],
        } as never)
      }
      return {}
    })
    expect(textIn(place)).toMatch(/R\d, continued/)
  })

  test('an amendment longer than a page goes on at its place on the next, with head and foot, and loses no word', async () => {
    const words = Array.from({ length: 300 }, (_, at) => `word${at}`)
    const { place } = await pdfOf(
      async (store, personId) => {
        await keepRecord(store, { personId })
        const notes = english(words.slice(0, 200).join(' '))
        const after = { ...notes, english: words.slice(200).join(' ') }
        await keepAmendment(store, 1, { changes: [{ field: 'notes', before: null, after }] } as never)
        await keepAmendment(store, 1, {
          number: 'R1-A2',
          changes: [{ field: 'notes', before: after, after: english('all of it was wrong') }],
        } as never)
        return {}
      },
      { demo: true },
    )
    const pages = textIn(place)
      .split('\f')
      .filter((page) => page.trim() !== '')
    for (const [at, page] of pages.entries()) {
      expect(page).toContain('DEMO DATA')
      expect(page).toContain(`Page ${at + 1}`)
    }
    const all = new Set(pages.join(' ').split(/[\s\]]+/))
    expect(words.filter((word) => !all.has(word))).toEqual([])
  })

  test('every page can be drawn', async () => {
    const { place } = await pdfOf(async (store, personId) => {
      await keepRecord(store, { personId })
      return {}
    })
    execFileSync('pdftoppm', ['-r', '40', '-png', place, place])
    expect(readFileSync(`${place}-1.png`).byteLength).toBeGreaterThan(2000)
  })
})

describe('totals by product and site', () => {
  const paper = (parts: Partial<RecordDraft>, row: { voidedAtMs: number | null } = { voidedAtMs: null }) => {
    const made = record(parts)
    return {
      kind: 'read',
      row,
      site: 'Row 5',
      original: made,
      current: { record: made, amended: [], voidedBy: null },
    } as never
  }
  const sumsOf = (...records: readonly never[]) => {
    const sums = totalling()
    for (const one of records) sums.count(one)
    return sums.totals()
  }

  test('weights are added in the unit of the first, and volumes apart from them', () => {
    const pound = { products: [product({ amount: { value: '1', unit: 'lb' } })] }
    const gallon = { products: [product({ amount: units.gallons('1') })] }
    // 2 oz and 1 lb are 18 oz, by hand.
    expect(sumsOf(paper({}), paper(pound), paper(gallon))).toMatchObject([
      {
        jobs: 3,
        amounts: [
          { value: '18', unit: 'oz wt' },
          { value: '1', unit: 'gal' },
        ],
        areas: [{ value: '15000', unit: 'ft2' }],
        withoutAmount: 0,
      },
    ])
  })

  test('a voided record does not count, and an amount that nobody wrote down is told', () => {
    const unknown = { products: [product({ amount: { notRecorded: true } })] }
    expect(sumsOf(paper({}), paper({}, { voidedAtMs: 1 }), paper(unknown))).toMatchObject([
      { jobs: 2, amounts: [{ value: '2', unit: 'oz wt' }], withoutAmount: 1 },
    ])
  })
})
