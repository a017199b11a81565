import { expect, test } from 'vitest'
import { readBook } from '#src/label/book.ts'
import { describeBook } from '#src/label/describe.ts'
import { plants } from '#src/plants.ts'
import { readData } from '#src/project.ts'

test('the description of the file format is that of the schema', () => {
  expect(JSON.parse(readData('label/entry.schema.json'))).toEqual(JSON.parse(JSON.stringify(describeBook())))
})

test('the example can be read', () => {
  const read = readBook(readData('label/example.json'), new Set(plants().taxa.map(({ id }) => id)))
  expect(read.ok && read.value.map(({ name, demo }) => [name, demo])).toEqual([['Marwender 60 SC', true]])
})
