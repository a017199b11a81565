import { describe, expect, test } from 'vitest'
import { measureShape } from '#src/calculator/area/measure-shape.ts'
import { reader } from '#src/conversation/reader.ts'
import { readPiece } from '#src/ground/read-piece.ts'

function piece(text: string, locale = 'en') {
  const read = reader(locale)
  return { found: readPiece(text, 'minus', read, 'ft'), problems: read.problems }
}

function squareFeet(text: string): number {
  const { found } = piece(text)
  const area = found === undefined ? undefined : measureShape(found.shape)
  return area?.ok ? Number(Number(area.value.value).toFixed(2)) : Number.NaN
}

describe('one piece of ground as it is typed', () => {
  test.each([
    ['rectangle 10x20 ft', 200],
    ['10 x 20 ft', 200],
    ['10 ft by 20 ft', 200],
    ['house 30x42 ft', 1260],
    ['4 yd x 3 ft', 36],
    ['square 12 ft', 144],
    ['350 ft2', 350],
    ['driveway 350 sq ft', 350],
    ['triangle 10x8 ft', 40],
    ['triangle 6x8x10 ft', 24],
    ['trapezoid 10 x 14 x 8 ft', 96],
    ['circle 6 ft', 28.27],
    ['6 ft circle', 28.27],
    ['circle radius 3 ft', 28.27],
    ['radius 3 ft', 28.27],
    ['tree circle r 3 ft', 28.27],
    ['círculo radio 3 ft', 28.27],
    ['circle 80 ft around', 509.3],
    ['oval 20x12 ft', 188.5],
    ['3 m x 2 m', 64.58],
  ])('%s is %d ft²', (text, expected) => {
    expect(squareFeet(text)).toBe(expected)
  })

  test('words that name no shape are what it is called', () => {
    expect(piece('house 30x42 ft').found?.name).toBe('house')
    expect(piece('maple bed circle 6 ft').found?.name).toBe('maple bed')
    expect(piece('10x20 ft').found?.name).toBe('')
  })

  test('a circle with a bare figure goes by its diameter, and that is said', () => {
    expect(piece('circle 6 ft').found?.notes.map(({ say }) => say)).toEqual(['ground.read-as-diameter'])
    expect(piece('circle radius 6 ft').found?.notes).toEqual([])
  })
})

test.each(['a pond', 'rectangle 10 ft', 'circle 3x4 ft', '10x20x30x40 ft', 'rectangle 10x20 gal', '', 'x'])(
  'what cannot be read is told, not guessed: %j',
  (text) => {
    const { found, problems } = piece(text)
    expect(found).toBeUndefined()
    expect(problems).toHaveLength(1)
  },
)
