import { expect, test } from 'vitest'
import { plants } from '#src/plants.ts'
import { loadDemo } from '../../data/demo/load.ts'

test('demo loads', () => {
  const demo = loadDemo(new Set(plants().taxa.map(({ id }) => id)))
  expect(demo.book.length).toBe(11)
})
