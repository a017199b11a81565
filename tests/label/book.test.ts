import { describe, expect, test } from 'vitest'
import { MOST_ENTRIES, readBook, readEntry } from '#src/label/book.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { entry, line } from './build.ts'

type Json = Record<string, unknown>
const good = () => JSON.parse(JSON.stringify(entry())) as Json
const book = (...entries: unknown[]) => JSON.stringify({ entries })

function problemsOf(parts: Json): [path: string, id: string][] {
  const read = readEntry({ ...good(), ...parts })
  return read.ok ? [] : read.error.map(({ path, id }) => [path, id])
}

const line0 = (parts: Json) => ({ rateLines: [{ ...line(), ...parts }] })
const rates = (...list: Json[]) => line0({ rates: list })

const rows: readonly [what: string, parts: Json, path: string, id: string][] = [
  ['a field that is missing', { signalWord: undefined }, 'signalWord', 'field-missing'],
  ['a field nobody knows', { ratelines: [] }, 'ratelines', 'field-unknown'],
  ['a number where a text belongs', { name: 7 }, 'name', 'field-kind'],
  ['a choice that is none', { form: 'powder' }, 'form', 'field-choice'],
  ['an empty list', { rateLines: [] }, 'rateLines', 'field-small'],
  ['a text that is too long', { name: 'x'.repeat(81) }, 'name', 'field-big'],
  ['a date that is none', { label: { version: 'A', date: '2024-02-30' } }, 'label.date', 'field-form'],
  ['an id with blanks', line0({ id: 'my line' }), 'rateLines[0].id', 'field-form'],
  ['a rate nobody can read', rates({ high: 'a handful' }), 'rateLines[0].rates[0].high', 'figure-unreadable'],
  ['a dry product by volume', rates({ high: '2 pt/acre' }), 'rateLines[0].rates[0].high', 'dry-by-volume'],
  [
    'low above high',
    rates({ low: '2 oz wt/1000 ft2', high: '1 oz wt/1000 ft2' }),
    'rateLines[0].rates[0].low',
    'low-above-high',
  ],
  [
    'low and high of two kinds',
    rates({ low: '2 oz wt/100 gal', high: '3 oz wt/1000 ft2' }),
    'rateLines[0].rates[0].low',
    'low-other-unit',
  ],
  [
    'a pair with a slipped point',
    rates({ high: '0.113 oz wt/1000 ft2' }, { high: '49 oz wt/acre' }),
    'rateLines[0].rates[1]',
    'pair-disagrees-far',
  ],
  [
    'a file symbol',
    { registration: { number: '9999999-RE' } },
    'registration.number',
    'registration-file-symbol',
  ],
  [
    'an establishment number',
    { registration: { number: '9999999-NC-1' } },
    'registration.number',
    'registration-establishment',
  ],
  ['no registration number', { registration: {} }, 'registration.number', 'registration-missing'],
  ['one id twice', { rateLines: [line(), line()] }, 'rateLines[1].id', 'line-twice'],
  [
    'a limit for a line that is not there',
    { limits: { interval: [{ days: 7, counts: 'product', lines: ['nowhere'] }] } },
    'limits.interval[0].lines',
    'scope-unknown-line',
  ],
  [
    'a yearly limit that is not per area',
    { limits: { perYear: [{ rates: ['2 lb/100 gal'], period: 'rolling', counts: 'product' }] } },
    'limits.perYear[0].rates[0]',
    'not-per-area',
  ],
  [
    'a yearly limit of an active that the product has not',
    {
      limits: {
        perYear: [{ rates: ['1 lb ai/acre'], period: 'rolling', counts: 'active', active: 'elsewhol' }],
      },
    },
    'limits.perYear[0].active',
    'active-unknown',
  ],
  [
    'a turf that is listed and excluded',
    { excludedTurfs: [{ words: 'tall fescue', taxa: ['tall-fescue'] }] },
    'excludedTurfs[0].taxa',
    'turf-listed-and-excluded',
  ],
  [
    'a temperature without a unit',
    { limits: { temperature: { most: '85' } } },
    'limits.temperature.most',
    'figure-unreadable',
  ],
  [
    'acid equivalent that says ai',
    { actives: [{ name: 'inventol', strength: '4 lb ai/gal', acid: '3 lb ai/gal' }] },
    'actives[0].acid',
    'acid-not-ae',
  ],
]

describe('an entry typed from a label', () => {
  test.each(rows)('%s', (_what, parts, path, id) => {
    expect(problemsOf(parts)).toContainEqual([path, `label.${id}`])
  })

  test('a good one has no problem', () => {
    expect(problemsOf({})).toEqual([])
  })

  test('every problem is told, not the first only', () => {
    expect(problemsOf({ name: '', form: 'powder', restricted: 'no' }).map(([path]) => path)).toEqual([
      'name',
      'form',
      'restricted',
    ])
  })

  test('with several actives a limit of active says which', () => {
    const two = { actives: [...entry().actives, { name: 'secondol', strength: '5 % ai' }] }
    const limits = { perYear: [{ rates: ['1 lb ai/acre'], period: 'rolling', counts: 'product' }] }
    expect(problemsOf({ ...two, limits })).toEqual([['limits.perYear[0].active', 'label.active-not-named']])
  })

  test('a bare ounce follows the form of the product', () => {
    expect(problemsOf(rates({ high: '0.113 oz/1000 ft2' }))).toEqual([])
  })

  test('a taxon that the key does not know is named', () => {
    const read = readEntry(good(), new Set(['tall-fescue', 'nutsedge-yellow']))
    expect(read).toMatchObject({
      ok: false,
      error: [
        { path: 'rateLines[0].weeds[0].taxa', id: 'label.taxon-unknown', with: { taxon: 'nutsedge-purple' } },
      ],
    })
  })

  test('a figure that cannot be read says why', () => {
    const read = readEntry({ ...good(), ...rates({ high: '0.4 oz wt' }) })
    expect(read).toMatchObject({
      ok: false,
      error: [{ with: { typed: '0.4 oz wt', why: { say: 'quantity.no-per' } } }],
    })
  })
})

describe('a book in a file', () => {
  test('is read whole', () => {
    const read = readBook(book(good(), { ...good(), name: 'Second' }))
    expect(read.ok && read.value.map(({ name }: LabelEntry) => name)).toEqual(['Invented 75 WDG', 'Second'])
  })

  test('with one bad row gives nothing, and names row and field', () => {
    const read = readBook(book(good(), { ...good(), name: 'Second', form: 'powder' }))
    expect(read).toEqual({
      ok: false,
      error: [
        {
          row: 2,
          name: 'Second',
          path: 'form',
          id: 'label.field-choice',
          with: { choices: { all: ['dry', 'liquid'], join: 'or' } },
        },
      ],
    })
  })

  test('names a product that stands in it twice', () => {
    const read = readBook(book(good(), { ...good(), name: 'INVENTED 75 wdg' }))
    expect(read).toMatchObject({ ok: false, error: [{ row: 2, path: 'name', id: 'label.name-twice' }] })
  })

  test.each([
    ['no JSON', '{"entries": [', 'label.file-not-json'],
    ['no entries', '{"entries": []}', 'label.file-no-entries'],
    ['a bare list', '[]', 'label.file-no-entries'],
    ['nothing', '', 'label.file-not-json'],
    ['too many', book(...Array.from({ length: MOST_ENTRIES + 1 }, () => 1)), 'label.file-too-many'],
  ])('that is %s is refused', (_what, text, id) => {
    expect(readBook(text)).toMatchObject({ ok: false, error: [{ row: 0, id }] })
  })
})
