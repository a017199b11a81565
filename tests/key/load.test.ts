import { describe, expect, test } from 'vitest'
import { type KeyFiles, loadKey, parseKey } from '#src/key/index.ts'
import { keyFiles, readKey } from '../../data/taxa/load.ts'

const files = keyFiles()

function withTaxa(change: (text: string) => string): KeyFiles {
  return { ...files, taxa: { ...files.taxa, text: change(files.taxa.text) } }
}

function firstProblem(changed: KeyFiles) {
  const result = parseKey(changed)
  return result.ok ? undefined : result.error[0]
}

describe('the data files', () => {
  test('hold 106 plants, 39 characters and 72 look-alikes', () => {
    const key = readKey()
    expect(key.taxa.length).toBe(106)
    expect(key.characters.length).toBe(39)
    expect(key.lookAlikes.length).toBe(72)
    expect(key.commonWeeds.length).toBe(20)
  })

  test('give a source to every cell that is not marked as from memory', () => {
    const bare = readKey().taxa.flatMap((taxon) =>
      Object.entries(taxon.cells)
        .filter(([, cell]) => (cell.kind === 'states' || cell.kind === 'range') && !cell.memory)
        .filter(([id, cell]) => id !== 'group' && 'sources' in cell && cell.sources.length === 0)
        .map(([id]) => `${taxon.id}.${id}`),
    )
    expect(bare).toEqual([])
  })

  test('give every state words, a hint for drawing and a place among at most 25 choices', () => {
    for (const character of readKey().characters) {
      if (character.kind !== 'hallmark') expect(character.states.length).toBeLessThanOrEqual(24)
      for (const state of character.states) expect(state.draw).toMatch(/^[a-zA-Z].{2}/)
    }
  })

  test('call alike only in both directions', () => {
    for (const character of readKey().characters) {
      for (const state of character.states) {
        for (const other of state.alike ?? []) {
          expect(character.states.find((one) => one.id === other)?.alike).toContain(state.id)
        }
      }
    }
  })
})

describe('a loader error names file, plant and cell', () => {
  test('for a state that does not exist', () => {
    const problem = firstProblem(withTaxa((text) => text.replace('folded|rolled', 'folded|twisted')))
    expect(problem).toMatchObject({ file: 'data/taxa/taxa.csv', taxon: 'bermuda', cell: 'vernation' })
    expect(problem?.message).toContain('twisted')
  })

  test('for a range that ends before it begins', () => {
    const problem = firstProblem(withTaxa((text) => text.replace('0.3-0.7', '0.7-0.3')))
    expect(problem).toMatchObject({ taxon: 'bermuda', cell: 'ligule_mm' })
  })

  test('for a plant that is there twice', () => {
    const row = files.taxa.text.split('\n')[1] ?? ''
    const problem = firstProblem(withTaxa((text) => `${text}${row}\n`))
    expect(problem).toMatchObject({ taxon: 'bermuda', cell: 'id' })
  })

  test('for a source that is not in the list', () => {
    const problem = firstProblem(withTaxa((text) => text.replace('FNA25|UF-EREC', 'NOWHERE|UF-EREC')))
    expect(problem).toMatchObject({ taxon: 'bermuda', cell: 'sources' })
  })

  test('for a missing column', () => {
    const problem = firstProblem(withTaxa((text) => text.replace('vernation', 'vernatoin')))
    expect(problem).toMatchObject({ file: 'data/taxa/taxa.csv', cell: 'vernation' })
  })

  test('for a look-alike that speaks of an unknown plant, in a sentence', () => {
    const lookAlikes = {
      ...files.lookAlikes,
      text: files.lookAlikes.text.replace('"centipede"', '"centaur"'),
    }
    expect(() => loadKey({ ...files, lookAlikes })).toThrow(
      /data\/taxa\/look-alikes\.json, cell 1: no plant "centaur"/,
    )
  })

  test('for text that is no JSON', () => {
    const problem = firstProblem({ ...files, groups: { ...files.groups, text: '[' } })
    expect(problem).toMatchObject({ file: 'data/taxa/groups.json' })
  })
})
