import { describe, expect, test } from 'vitest'
import { keySuggestions } from '#src/identify/suggest.ts'
import { parseObserved } from '#src/key/index.ts'
import { plants } from '#src/plants.ts'
import { ada } from '#tests/helpers/asks.ts'

const suggest = (option: string, typed: string, locale = 'en') =>
  keySuggestions[option]?.({ by: { ...ada, locale }, command: 'key', option, typed, options: {} }) ?? []

describe('plants', () => {
  test.each([
    ['turfs', 'centi', 'Centipedegrass'],
    ['turfs', 'st aug', 'St. Augustinegrass'],
    ['turfs', 'Eremochloa', 'Centipedegrass'],
    ['weeds', 'yelow nutsedg', 'Yellow nutsedge'],
    ['weeds', 'carpetgr', 'carpetgrass'],
  ])('%s: %s offers %s', (option, typed, name) => {
    expect(suggest(option, typed).map((one) => one.name)).toContain(name)
  })

  test('turfs are only grasses that can be a lawn', () => {
    expect(suggest('turfs', 'yellow nutsedge').map(({ name }) => name)).not.toContain('Yellow nutsedge')
  })

  test('stand in the language of whoever types', () => {
    expect(suggest('turfs', 'centi', 'es-US').map(({ name }) => name)).toContain('ciempiés')
  })

  test('at most 25, and something before anything is typed', () => {
    for (const option of ['turfs', 'weeds', 'observed']) {
      expect(suggest(option, '').length).toBeGreaterThan(0)
      expect(suggest(option, '').length).toBeLessThanOrEqual(25)
    }
  })
})

describe('what was seen', () => {
  test('completes the last piece of a list and keeps the rest', () => {
    expect(suggest('observed', 'vernation=folded; stolon').map(({ value }) => value)).toContain(
      'vernation=folded; habit=stolons',
    )
  })

  test('offers no character a second time', () => {
    const values = suggest('observed', 'vernation=folded; rolled').map(({ value }) => value)
    expect(values.filter((value) => value.includes('; vernation='))).toEqual([])
  })

  test('every offer is understood when it comes back', () => {
    for (const typed of ['', 'fol', 'habit=stolons; blun', 'seed head, sp'])
      for (const { value } of suggest('observed', typed).slice(0, 8)) {
        const last = value.slice(Math.max(value.lastIndexOf(';'), value.lastIndexOf(',')) + 1)
        expect(parseObserved(plants(), last).problems, value).toEqual([])
      }
  })
})
