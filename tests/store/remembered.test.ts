import { expect, test } from 'vitest'
import { z } from 'zod'
import { readerAndWriter, remembered } from '#src/store/remembered.ts'

/** A schema that counts how often something was held against it. */
function counted() {
  let checked = 0
  const schema = z.strictObject({ name: z.string(), parts: z.array(z.string()).default([]) }).refine(() => {
    checked += 1
    return true
  })
  return { schema, checked: () => checked }
}

test('the same text is read once, and what it gave is frozen', () => {
  const { schema, checked } = counted()
  const read = remembered(schema)
  const first = read('{"name":"Invented Row 5"}')
  expect(first).toEqual({ name: 'Invented Row 5', parts: [] })
  expect(read('{"name":"Invented Row 5"}')).toBe(first)
  expect(checked()).toBe(1)
  expect(() => (first.parts as string[]).push('front')).toThrow(TypeError)
})

test('what another program has put there is refused each time', () => {
  const read = remembered(counted().schema)
  for (const _ of [1, 2]) expect(() => read('{"title":"Invented Row 5"}')).toThrow(z.ZodError)
})

test('what this process wrote is not checked again, and stands apart from what the caller holds', () => {
  const { schema, checked } = counted()
  const { read, write } = readerAndWriter(schema, 10)
  const own = { name: 'Invented Row 5', parts: ['front'] }
  const text = write(own)
  own.parts.push('rear')
  expect(read(text)).toEqual({ name: 'Invented Row 5', parts: ['front'] })
  expect(checked()).toBe(0)
})

test('what is not there in the text is not there afterwards either', () => {
  const { read, write } = readerAndWriter(z.object({ name: z.string().optional() }), 10)
  expect('name' in read(write({ name: undefined }))).toBe(false)
})

test('the oldest is forgotten, and read anew', () => {
  const { schema, checked } = counted()
  const { read, write } = readerAndWriter(schema, 2)
  const texts = ['a', 'b', 'c'].map((name) => write({ name, parts: [] }))
  for (const text of texts) expect(read(text)).toEqual(JSON.parse(text))
  expect(checked()).toBeGreaterThan(0)
})

test('a very long text is read each time: it is not kept', () => {
  const { schema, checked } = counted()
  const { read, write } = readerAndWriter(schema, 10)
  const text = write({ name: 'x'.repeat(20_000), parts: [] })
  for (const _ of [1, 2]) read(text)
  expect(checked()).toBe(2)
})
