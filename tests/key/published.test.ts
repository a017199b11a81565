import { describe, expect, test } from 'vitest'
import { assess, parseObserved } from '#src/key/index.ts'
import { readKey } from '../../data/taxa/load.ts'
import { PUBLISHED } from './published.ts'

const key = readKey()

describe('published descriptions', () => {
  test('there are at least forty, each with its source', () => {
    expect(PUBLISHED.length).toBeGreaterThanOrEqual(40)
    expect(PUBLISHED.every((one) => one.source.length > 10)).toBe(true)
  })

  test.each(PUBLISHED)('$plant in a $lawn lawn ($source)', ({ plant, lawn, observed, must }) => {
    const { answers, problems } = parseObserved(key, observed)
    expect(problems).toEqual([])
    const result = assess(key, { turf: { kind: 'record', turfs: [lawn] }, answers: [...answers], mown: true })
    const named = result.taxon?.members.map((member) => member.id) ?? []
    if (must === 'name') expect(result.result).toBe('weed')
    if (must === 'own') expect(result.result).toBe('own-turf')
    if (must === 'not-weed') expect(result.result).not.toBe('weed')
    if (must === 'right') expect(result.result).not.toBe('own-turf')
    if (result.result === 'hold') expect(result.remaining.map((one) => one.id)).toContain(plant)
    else expect(named).toContain(plant)
  })
})
