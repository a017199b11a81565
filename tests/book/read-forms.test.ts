import { describe, expect, test } from 'vitest'
import { readProduct, readRateLine, readSafety, readSpan } from '#src/book/read-forms.ts'

const product = { name: 'Demo Nine', formulation: 'wdg', registration: '9999999-12', signal: 'CAUTION' }

describe('the product, as typed on a phone', () => {
  test('form follows from the letters, each active from its line', () => {
    const read = readProduct({
      ...product,
      actives: 'demolin 75 % ai, group 2\nfauxazole 4 lb/gal\ntrivex 480 g ai/L, grupo 14',
    })
    expect(read).toMatchObject({
      ok: true,
      part: {
        form: 'dry',
        formulation: 'WDG',
        registration: { number: '9999999-12' },
        actives: [
          { name: 'demolin', strength: '75 % ai', group: '2' },
          { name: 'fauxazole', strength: '4 lb ai/gal' },
          { name: 'trivex', strength: '480 g ai/L', group: '14' },
        ],
      },
    })
  })

  test.each([['25(b)'], ['25b'], ['exempt'], ['Exento']])('%s has no number', (registration) => {
    const read = readProduct({ ...product, registration, actives: 'demolin 75 % ai' })
    expect(read).toMatchObject({ ok: true, part: { registration: { exempt25b: true } } })
  })

  test('each active that cannot be read is told', () => {
    const read = readProduct({ ...product, actives: 'demolin\n75 %\nfauxazole 4 lb/gal' })
    expect(read).toMatchObject({
      ok: false,
      problems: [{ with: { text: 'demolin' } }, { with: { text: '75 %' } }],
    })
  })
})

describe('a rate line, as typed on a phone', () => {
  const line = { line: 'Demo weeds: 1 fl oz.', turfs: 'tall fescue, bermudagrass', rates: '1 fl oz/1000 ft2' }

  test('turfs become taxa, rates stay as printed, a taken id is passed over', () => {
    expect(readRateLine({ ...line, weeds: 'dandelion' }, ['line-1'])).toMatchObject({
      ok: true,
      part: {
        line: {
          id: 'line-2',
          turfs: [{ words: 'tall fescue', taxa: ['tall-fescue'] }, { words: 'bermudagrass' }],
          weeds: [{ words: 'dandelion', taxa: ['dandelion'] }],
          rates: [{ high: '1 fl oz/1000 ft2' }],
        },
      },
    })
  })

  test('a grass that is none is told', () => {
    expect(readRateLine({ ...line, turfs: 'tall fescue, plastic' }, [])).toMatchObject({
      ok: false,
      problems: [{ with: { name: 'plastic' } }],
    })
  })
})

test.each([
  ['0.25 to 0.37 fl oz/1000 ft2', { low: '0.25 fl oz/1000 ft2', high: '0.37 fl oz/1000 ft2' }],
  ['3 - 4 pt/acre', { low: '3 pt/acre', high: '4 pt/acre' }],
  ['3–4 pt/acre', { low: '3 pt/acre', high: '4 pt/acre' }],
  ['1 a 1.5 L/ha', { low: '1 L/ha', high: '1.5 L/ha' }],
  ['0.25 to 0.5 % v/v', { low: '0.25 % v/v', high: '0.5 % v/v' }],
  ['4.9 oz wt/acre', { high: '4.9 oz wt/acre' }],
])('the span %s', (text, rate) => {
  expect(readSpan(text)).toEqual(rate)
})

test.each([
  ['through the soil', 'soil'],
  ['works by leaf and root', 'both'],
  ['entra por la hoja', 'leaf'],
])('the label says that it gets in %s', (limits, way) => {
  const line = { line: 'Demo weeds: 1 fl oz.', turfs: 'tall fescue', rates: '1 fl oz/1000 ft2' }
  expect(readRateLine({ ...line, limits: `28 days; ${limits}` }, [])).toMatchObject({
    ok: true,
    part: { limits: { interval: [{ days: 28 }], worksThrough: { way, line: limits } } },
  })
})

describe('safety and label', () => {
  const safety = { mixing: 'Gloves\nGoggles', spraying: 'Gloves', label: 'D-9 2026-01-15' }

  test('lines become a list, the label a version and a day', () => {
    expect(readSafety({ ...safety, first_aid: 'Rinse.' }, '2026-05-04')).toMatchObject({
      ok: true,
      part: {
        label: { version: 'D-9', date: '2026-01-15' },
        safety: { mixing: ['Gloves', 'Goggles'], spraying: ['Gloves'] },
      },
    })
  })

  test.each([['D-9'], ['D-9 someday'], ['2026-01-15']])('the label “%s” cannot be read', (label) => {
    expect(readSafety({ ...safety, label }, '2026-05-04').ok).toBe(false)
  })
})
