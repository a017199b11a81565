import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readInteraction } from '#src/messengers/discord/read.ts'

const text = fc.string({ unit: 'binary', maxLength: 40 })
const junk = fc.anything({ maxDepth: 3, withBigInt: false, withNullPrototype: true })
const customId = fc.oneof(
  text,
  fc.constantFrom('s1.1.1', 's1.1.f!c@1', 'p1.1', 'l1.1.en', 'c1', '!@', 's1.1.1!cdqr'),
)
const user = { id: '7', username: 'demo', global_name: null }
const common = {
  id: '1323802873036800000',
  application_id: '1',
  token: 'demo',
  guild_id: '2',
  channel_id: '3',
  locale: 'en-US',
  member: { user, nick: null, roles: ['4'], permissions: '0' },
  message: { id: '5', flags: 0, components: [] },
}
const option = fc.record({
  name: text,
  type: fc.integer({ min: 1, max: 11 }),
  value: fc.oneof(text, fc.double()),
})
const data: Readonly<Record<number, fc.Arbitrary<object>>> = {
  2: fc.record({ name: text, options: fc.array(option, { maxLength: 4 }) }),
  3: fc.record({ custom_id: customId, values: fc.array(text, { maxLength: 3 }) }),
  4: fc.record({ name: text, options: fc.array(option, { maxLength: 4 }) }),
  5: fc.record({
    custom_id: customId,
    components: fc.array(fc.record({ component: fc.record({ custom_id: text, value: text }) }), {
      maxLength: 5,
    }),
  }),
}
/** Sound interactions of every kind, with texts that nobody would type. */
const sound = fc
  .constantFrom(2, 3, 4, 5)
  .chain((type) => (data[type] as fc.Arbitrary<object>).map((inner) => ({ ...common, type, data: inner })))

/** One field anywhere, by the way to it, replaced or taken out. */
const harm = fc.record({
  way: fc.array(fc.nat(12), { minLength: 1, maxLength: 4 }),
  by: fc.option(junk, { nil: undefined }),
})

function harmed(
  frame: unknown,
  { way, by }: { readonly way: readonly number[]; readonly by: unknown },
): unknown {
  const copy = structuredClone(frame) as Record<string, unknown>
  let place = copy
  for (const [at, step] of way.entries()) {
    const keys = Object.keys(place)
    const key = keys[step % Math.max(keys.length, 1)]
    if (key === undefined) return copy
    const next = place[key]
    if (at === way.length - 1 || typeof next !== 'object' || next === null) {
      if (by === undefined) delete place[key]
      else place[key] = by
      return copy
    }
    place = next as Record<string, unknown>
  }
  return copy
}

test('whatever the gateway sends, it is read or refused with a reason, and never thrown over', () => {
  const count = { read: 0, refused: 0 }
  const frame = fc.oneof(
    { arbitrary: sound, weight: 2 },
    {
      arbitrary: fc
        .tuple(sound, fc.array(harm, { minLength: 1, maxLength: 3 }))
        .map(([one, harms]) => harms.reduce<unknown>(harmed, one)),
      weight: 6,
    },
    junk,
  )
  fc.assert(
    fc.property(frame, (raw) => {
      const read = readInteraction(raw)
      if (read.ok) count.read += 1
      else {
        count.refused += 1
        expect(read.problem).not.toBe('')
      }
    }),
    { numRuns: 2000, seed: 20261127 },
  )
  // Both happen often: sound ones are understood, harmed ones are seen.
  expect(Math.min(count.read, count.refused)).toBeGreaterThan(100)
})
