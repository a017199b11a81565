import fc from 'fast-check'
import { describe, expect, test, vi } from 'vitest'
import { z } from 'zod'
import { Amendment } from '#src/record/amend.ts'
import type { Json } from '#src/record/canonical.ts'
import { canonicalJson } from '#src/record/canonical.ts'
import { plainReader } from '#src/record/plain-reader.ts'
import { ApplicationRecord } from '#src/record/record.ts'
import { at, english, product, record, spanish } from './build.ts'

const whole = record({
  notes: spanish('vecina con perro'),
  unusual: { happened: true, words: english('hose burst'), incidentId: 3 },
  supervisor: { name: 'Demo Lead Harrowmere', license: { number: 'DEMO-L9', category: '3B' } },
  helpers: [{ name: 'Demo Helper Marl' }, { name: 'Demo Helper Sill', id: 4 }],
  products: [product(), product({ registration: { notRecorded: true }, amount: { removed: true } })],
  keepOffUntil: { untilDry: true },
  license: { none: true },
}) as unknown as Json
const amendment = {
  number: 'R1-A1',
  record: 'R1',
  at: at('2025-07-01 08:00'),
  by: { name: 'Demo Person Quillfern' },
  why: { words: 'typed it wrong', language: 'en' },
  voids: false,
  changes: [{ field: 'county', before: 'Demo County', after: null }],
} as unknown as Json

/** As it comes out of the store: keys in the order of their letters. */
const stored = (value: Json): Json => JSON.parse(canonicalJson(value)) as Json

/** What somebody with a tool of their own may have put in the place of a value. */
const strange = fc.oneof(
  fc.constantFrom<Json>(
    null,
    true,
    0,
    -1,
    1e300,
    '',
    ' ',
    'x',
    ' x ',
    '0.10',
    '.5',
    '2025-02-30',
    '2025-06-30',
    '2025-06-30 24:00',
    'broken \ud800',
    'nul \0',
    'x'.repeat(201),
    '😀'.repeat(200),
    [],
    {},
    { notRecorded: true },
    { removed: true },
    { notRecorded: false },
    { notRecorded: true, removed: true },
    { sealed: 'x' },
    { value: '1', unit: 'gal' },
    { value: '1', unit: 'ft2' },
  ),
  fc.jsonValue({ maxDepth: 2 }) as fc.Arbitrary<Json>,
)

type Place = { [key: string]: Json | undefined }

/** A record or amendment in which something was put in the place of something else, added, or taken out. */
const changed = (value: Json) =>
  fc
    .array(fc.tuple(fc.nat(), fc.nat(), strange, fc.constantFrom('set', 'add', 'drop', 'again')), {
      minLength: 1,
      maxLength: 3,
    })
    .map((changes) => {
      const copy = structuredClone(stored(value))
      for (const [where, which, what, how] of changes) {
        const places = placesIn(copy)
        const place = places[where % places.length] ?? {}
        const keys = Object.keys(place)
        const key = keys[which % Math.max(keys.length, 1)] ?? 'x'
        if (how === 'set') place[key] = structuredClone(what)
        else if (how === 'add') place[`${key}2`] = structuredClone(what)
        else if (how === 'again' && Array.isArray(place)) place.push(structuredClone(place[0] ?? null))
        else delete place[key]
      }
      // Nothing but what can stand in a text.
      return JSON.parse(JSON.stringify(copy)) as Json
    })

function placesIn(value: Json | undefined): Place[] {
  if (typeof value !== 'object' || value === null) return []
  return [value as Place, ...Object.values(value).flatMap(placesIn)]
}

describe.each([
  ['a record', ApplicationRecord as z.ZodType, whole],
  ['an amendment', Amendment as z.ZodType, amendment],
])('reading %s back', (_, schema, value) => {
  const read = plainReader(schema)
  const expectSame = (one: unknown) => {
    const { data } = schema.safeParse(one)
    expect(read(one)).toEqual(data)
    // Papers print keys as they stand.
    expect(JSON.stringify(read(one))).toBe(JSON.stringify(data))
  }

  test('gives what the schema gives, in its order of keys', () => {
    expect(schema.safeParse(stored(value)).success).toBe(true)
    expectSame(stored(value))
  })

  test('takes nothing that the schema does not take, and gives nothing else, whatever was changed', () => {
    fc.assert(fc.property(changed(value), expectSame), { numRuns: 500 })
  })

  test.each([null, undefined, [], 'x', 7, {}])('%j is none', (other) => {
    expect(read(other)).toBeUndefined()
  })

  test('leaves what it was given as it was', () => {
    const given = stored(value)
    const before = JSON.stringify(given)
    read(given)
    expect(JSON.stringify(given)).toBe(before)
  })

  test('does without the schema for what holds', () => {
    const ask = vi.spyOn(schema, 'safeParse')
    expect(read(stored(value))).toBeDefined()
    expect(ask).not.toHaveBeenCalled()
    ask.mockRestore()
  })
})

describe('a schema that is unlike those of records', () => {
  test.each<[string, z.ZodType, unknown, unknown]>([
    ['a default fills in', z.strictObject({ a: z.string().default('x') }), {}, { a: 'x' }],
    ['other keys fall away', z.object({ a: z.string() }), { a: 'x', b: 1 }, { a: 'x' }],
    ['other keys stay', z.looseObject({ a: z.string() }), { a: 'x', b: 1 }, { a: 'x', b: 1 }],
    ['a value is made of another', z.string().transform(Number), '7', 7],
    ['a value is coerced', z.coerce.string(), 7, '7'],
    ['a text is trimmed', z.array(z.string().trim().min(1)), [' a ', 'b'], ['a', 'b']],
    ['a text is trimmed to nothing', z.string().trim().min(1), '  ', undefined],
    ['an optional key holds nothing', z.strictObject({ a: z.string().optional() }), { a: undefined }, {}],
    [
      'an exactly optional key holds nothing',
      z.strictObject({ a: z.string().exactOptional() }),
      { a: undefined },
      undefined,
    ],
    [
      'an object is checked as a whole',
      z.strictObject({ a: z.int(), b: z.int() }).refine(({ a, b }) => a < b),
      { a: 2, b: 1 },
      undefined,
    ],
    ['a list is too long', z.array(z.int()).max(1), [1, 2], undefined],
    ['a number is not whole', z.int(), 1.5, undefined],
    ['a value may be null', z.string().nullable(), null, null],
    ['a record of any keys', z.record(z.string(), z.int()), { a: 1 }, { a: 1 }],
  ])('%s', (_, schema, value, expected) => {
    expect(plainReader(schema)(value)).toEqual(expected)
    expect(schema.safeParse(value).data).toEqual(expected)
  })
})
