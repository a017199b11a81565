import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readGuess, readTurf } from '#src/identify/read-names.ts'
import { plantName, plants, taxonByName, turfTaxa } from '#src/plants.ts'

describe('a typed turf', () => {
  test.each([
    ['centipedegrass', ['centipede']],
    ['Centipede grass', ['centipede']],
    ['St Augustine', ['st-augustine']],
    ['ciempiés', ['centipede']],
    ['Eremochloa ophiuroides', ['centipede']],
    ['bermudagrass', ['bermuda', 'bermuda-hybrid']],
    ['carpetgrass', ['carpet-common', 'carpet-tropical']],
    ['fescue', ['tall-fescue', 'red-fescue', 'fine-fescue-bunch']],
    ['ryegrass', ['perennial-rye', 'annual-rye']],
    ['Kentucky bluegrass and perennial ryegrass', ['kbg', 'perennial-rye']],
    ['Kentucky bluegrass, tall fescue', ['kbg', 'tall-fescue']],
  ])('%s guards %j', (typed, taxa) => {
    const read = readTurf(typed)
    expect(read.ok && [...read.taxa].sort()).toEqual([...taxa].sort())
  })

  test.each(['unknown', '?', 'not sure', 'no sé'])('%s guards every lawn grass', (typed) => {
    expect(readTurf(typed)).toEqual({ ok: true, taxa: [] })
  })

  test.each(['centipedgras', 'kentuky blugrass'])('%s is a slip: the nearest are offered', (typed) => {
    const read = readTurf(typed)
    expect(read.ok).toBe(false)
    expect(!read.ok && read.nearest.length).toBeGreaterThan(0)
  })

  test.each(['crabgrass', 'yellow nutsedge', 'zzzz'])('%s is no lawn', (typed) => {
    expect(readTurf(typed).ok).toBe(false)
  })

  test('one unclear piece of several is named, and nothing is guarded by halves', () => {
    expect(readTurf('tall fescue and zzzz')).toMatchObject({ ok: false, typed: 'zzzz' })
  })

  test('every lawn grass is understood by its own name, and guards itself', () => {
    for (const { id, names } of turfTaxa()) {
      const read = readTurf(names.en)
      expect(read.ok && read.taxa, names.en).toContain(id)
    }
  })

  test('never throws, and never guards a plant that is no lawn', () => {
    const turfs = new Set(turfTaxa().map(({ id }) => id))
    fc.assert(
      fc.property(fc.string({ maxLength: 40 }), (typed) => {
        const read = readTurf(typed)
        return (read.ok ? read.taxa : read.nearest).every((id) => turfs.has(id))
      }),
    )
  })
})

test.each([
  ['carpetgrass', ['carpet-common', 'carpet-tropical']],
  ['yellow nutsedge', ['nutsedge-yellow']],
  ['yelow nutsedge', ['nutsedge-yellow']],
])('the guess %s steers towards %j', (typed, ids) => {
  expect(readGuess(typed)?.ids).toEqual(ids)
})

test('a guess that means nothing is left aside', () => {
  expect(readGuess('qqqqq')).toBeNull()
})

test('the name under which a weed is handed to the mix means that weed again', () => {
  const lost = plants().taxa.filter(({ id }) => taxonByName(plantName(id, 'en'))?.id !== id)
  expect(lost.map(({ id }) => id)).toEqual([])
})
