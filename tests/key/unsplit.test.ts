import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Answer, assess, type Taxon } from '#src/key/index.ts'
import { isCloseUp, splitBetween, unsplitPairs } from '#src/key/unsplit.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()
const pairs = unsplitPairs(key)

function plant(id: string): { index: number; taxon: Taxon } {
  const index = key.taxa.findIndex((taxon) => taxon.id === id)
  const taxon = key.taxa[index]
  if (taxon === undefined) throw new Error(`No plant ${id}`)
  return { index, taxon }
}

function isUnsplit(turf: string, other: string): boolean {
  return pairs.get(plant(turf).index)?.has(plant(other).index) === true
}

/** Pairs without a splitting character in the first table of plants (FNA 24 and 25, UGA, CSU; partly from memory). */
const LISTED = [
  ['st-augustine', 'centipede'],
  ['centipede', 'carpet-common'],
  ['centipede', 'carpet-tropical'],
  ['st-augustine', 'carpet-tropical'],
  ['carpet-common', 'carpet-tropical'],
  ['bermuda-hybrid', 'zoysia-coarse'],
  ['bermuda-hybrid', 'zoysia-fine'],
  ['zoysia-coarse', 'zoysia-fine'],
  ['bermuda', 'bermuda-hybrid'],
  ['bermuda', 'kikuyu'],
  ['bermuda-hybrid', 'kikuyu'],
  ['zoysia-fine', 'kikuyu'],
  ['seashore-paspalum', 'bermuda'],
  ['seashore-paspalum', 'bermuda-hybrid'],
  ['seashore-paspalum', 'bahia'],
  ['seashore-paspalum', 'torpedograss'],
  ['bermuda-hybrid', 'torpedograss'],
  ['buffalo', 'nimblewill'],
  ['perennial-rye', 'fine-fescue-bunch'],
] as const

describe('pairs that plain mown turf does not split', () => {
  test.each(LISTED)('%s and %s come out of the table', (one, other) => {
    expect(isUnsplit(one, other)).toBe(true)
  })

  test('coarse zoysia and kikuyugrass part by the bud, looked up: rolled against folded', () => {
    const { zoysia, kikuyu } = { zoysia: plant('zoysia-coarse').taxon, kikuyu: plant('kikuyu').taxon }
    expect(splitBetween(key.characters, zoysia, kikuyu)).toBe(1)
    expect(zoysia.cells.vernation).toMatchObject({ states: ['rolled'], memory: false })
    expect(kikuyu.cells.vernation).toMatchObject({ states: ['folded'], memory: false })
  })

  test.each([
    ['kbg', 'perennial-rye'],
    ['bermuda', 'crab-smooth'],
    ['bermuda', 'nimblewill'],
    ['tall-fescue', 'perennial-rye'],
    ['centipede', 'nutsedge-yellow'],
  ])('%s and %s are split', (one, other) => {
    expect(isUnsplit(one, other)).toBe(false)
  })

  test('it is the same from either side where both are turf', () => {
    for (const [turf, others] of pairs) {
      for (const other of others) if (pairs.has(other)) expect(pairs.get(other)?.has(turf)).toBe(true)
    }
  })

  test('most plants are split from most turfs', () => {
    const count = [...pairs.values()].reduce((sum, others) => sum + others.size, 0)
    expect(count / (pairs.size * key.taxa.length)).toBeLessThan(0.04)
  })
})

const plainAnswers: fc.Arbitrary<Answer[]> = fc.uniqueArray(
  fc
    .constantFrom(...key.characters.filter((character) => !isCloseUp(character)))
    .chain((character) =>
      fc
        .constantFrom(...character.states)
        .map((state): Answer => ({ kind: 'states', character: character.id, states: [state.id] })),
    ),
  { maxLength: 12, selector: (answer) => answer.character },
)
const couples = [...pairs].flatMap(([turf, others]) => [...others].map((other) => ({ turf, other })))

describe('without a seed head, a hallmark, something dug up or a close look', () => {
  test('no plain answers at all name a plant in the lawn it is not split from', () => {
    fc.assert(
      fc.property(fc.constantFrom(...couples), plainAnswers, ({ turf, other }, answers) => {
        const lawn = key.taxa[turf]?.id ?? ''
        const result = assess(key, { turf: { kind: 'record', turfs: [lawn] }, answers, mown: true })
        if (result.result !== 'weed') return
        expect(result.taxon?.members.map((member) => member.id)).not.toContain(key.taxa[other]?.id)
      }),
      { numRuns: 300 },
    )
  })

  test('true plain answers end in a hold for the plant, and never in a weed for the lawn', () => {
    for (const { turf, other } of couples) {
      const lawn = key.taxa[turf]?.id ?? ''
      for (const seen of [turf, other]) {
        const answers = plainTruth(key.taxa[seen])
        const result = assess(key, { turf: { kind: 'record', turfs: [lawn] }, answers, mown: true })
        const label = `${key.taxa[seen]?.id} in ${lawn}`
        if (seen === other) expect(result.result, label).toBe('hold')
        else expect(result.result, label).not.toBe('weed')
      }
    }
  })
})

/** What a plant shows to the bare eye on mown turf: every listed state of each plain character. */
function plainTruth(taxon: Taxon | undefined): Answer[] {
  return key.characters.flatMap((character): Answer[] => {
    const cell = taxon?.cells[character.id]
    if (isCloseUp(character) || cell?.kind !== 'states' || character.kind !== 'one') return []
    return [{ kind: 'states', character: character.id, states: [...cell.states] }]
  })
}
