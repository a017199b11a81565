import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type Answer,
  assess,
  comparisonAnswers,
  consider,
  parseObserved,
  type Walk,
  withAnswer,
} from '#src/key/index.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()
const seen = (character: string, ...states: string[]): Answer => ({ kind: 'states', character, states })

/** Carpetgrass in centipedegrass, by its pair of spikes and its bearded joints. */
const CARPETGRASS: Walk = {
  turf: { kind: 'record', turfs: ['centipede'] },
  answers: [
    ...parseObserved(
      key,
      'a grass; folded; stolons; blade 6 mm; blunt tip; seedhead=pair-plus; node_hairs=yes',
    ).answers,
  ],
  mown: true,
}
const named = assess(key, CARPETGRASS)

const characterOf = (id: string) => key.characters.find((one) => one.id === id)

describe('what to compare with a plant that was named', () => {
  test('is offered with the name, and only there', () => {
    expect(named.result).toBe('weed')
    expect(named.compare.length).toBeGreaterThanOrEqual(3)
    const open = { ...CARPETGRASS, answers: CARPETGRASS.answers.slice(0, 4) }
    expect(assess(key, open)).toMatchObject({ result: 'hold', compare: [] })
  })

  test.each(named.compare)('$character was not looked at yet, is sourced, and can be seen', (one) => {
    expect(CARPETGRASS.answers.map(({ character }) => character)).not.toContain(one.character)
    const cells = named.taxon?.members.map(
      ({ id }) => key.taxa.find((taxon) => taxon.id === id)?.cells[one.character],
    )
    expect(cells).toHaveLength(2)
    for (const cell of cells ?? []) expect(cell).toMatchObject({ kind: 'states', memory: false })
    // What either of the two may show fits the name of both.
    const listed = cells?.flatMap((cell) => (cell?.kind === 'states' ? cell.states : []))
    expect([...one.fits].sort()).toEqual([...new Set(listed)].sort())
    expect(characterOf(one.character)?.reliability).not.toBe('weak')
    const states = characterOf(one.character)?.states.filter(({ neutral }) => neutral !== true) ?? []
    expect([...one.fits, ...one.other].sort()).toEqual(states.map(({ id }) => id).sort())
  })

  test('leaves out parts of a head that was said not to be there', () => {
    const headless = { ...CARPETGRASS, answers: [...CARPETGRASS.answers, seen('seedhead', 'none-seen')] }
    const parts = assess(key, headless).compare.map(({ character }) => characterOf(character)?.part)
    expect(parts).not.toContain('head')
  })
})

describe('what the comparison shows', () => {
  const compared = (clashes: readonly string[], unseen: readonly string[] = []) =>
    assess(key, comparisonAnswers(named.compare, { clashes, unseen }).reduce(withAnswer, CARPETGRASS))
  const all = named.compare.map(({ character }) => character)

  test('a plant that fits keeps its name', () => {
    expect(compared([])).toMatchObject({ result: 'weed', taxon: { id: named.taxon?.id } })
  })

  test('a plant that clashes in everything loses it, and is held', () => {
    expect(compared(all).result).toBe('hold')
  })

  test('what could not be seen says nothing', () => {
    expect(compared([], all)).toMatchObject({ result: 'weed', spokeFor: named.spokeFor })
  })
})

describe("the lawn's own grass, compared with any other plant", () => {
  const lawns = key.taxa.filter(({ role }) => role !== 'weed')
  const others = key.characters.filter(({ kind }) => kind === 'one')

  test('is never named a weed by what fits and what does not', () => {
    fc.assert(
      fc.property(fc.constantFrom(...lawns), fc.constantFrom(...key.taxa), (lawn, plant) => {
        const compared = others.flatMap(({ id, states }) => {
          const [own, listed] = [lawn.cells[id], plant.cells[id]]
          if (own?.kind !== 'states' || listed?.kind !== 'states') return []
          const ids = states.filter(({ neutral }) => neutral !== true).map((state) => state.id)
          const other = ids.filter((state) => !listed.states.includes(state))
          const isClash = !own.states.some((state) => listed.states.includes(state))
          return other.length === 0 ? [] : [{ isClash, character: id, fits: listed.states, other }]
        })
        const clashes = compared.filter(({ isClash }) => isClash).map(({ character }) => character)
        const answers = comparisonAnswers(compared, { clashes, unseen: [] })
        const turf = { kind: 'record' as const, turfs: [lawn.id] }
        expect(consider(key, { turf, answers, mown: true }).standing.result).not.toBe('weed')
      }),
      { numRuns: 300 },
    )
  })
})
