import { describe, expect, test } from 'vitest'
import { assess, findTaxa, nextQuestion, parseObserved, taxaNamed, type Walk } from '#src/key/index.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()
const PATCH = 'a grass; folded; stolons; blade 6 mm; blunt tip'

function walk(observed: string, turf = 'centipedegrass', guess?: string): Walk {
  const { answers, problems } = parseObserved(key, observed)
  expect(problems).toEqual([])
  return {
    turf: { kind: 'record', turfs: [...taxaNamed(key, turf)] },
    answers: [...answers],
    mown: true,
    ...(guess === undefined ? {} : { guess: [...(findTaxa(key, guess)[0]?.ids ?? [])] }),
  }
}

/** Common practice, no source, beside the published descriptions (FNA 25; Flora of China 22; Clemson HGIC). */
describe('a suspicious patch in a centipedegrass lawn', () => {
  test('without a seed head it is held, with all four lawn grasses still possible', () => {
    const result = assess(key, walk(`${PATCH}; no seed head`))
    expect(result.result).toBe('hold')
    expect(result.holdReason).toBe('not-sure')
    const remaining = result.remaining.map((one) => one.id)
    expect(remaining).toEqual(
      expect.arrayContaining(['centipede', 'carpet-common', 'carpet-tropical', 'st-augustine']),
    )
    expect(remaining.length).toBeLessThan(10)
    expect(result.lookFor).toContain('seedhead')
    expect(result.advice).toEqual(expect.arrayContaining(['dont-spray', 'wait-for-seed-head']))
    expect(result.advice).not.toContain('see-products')
  })

  test.each([
    ['with the plant group given', `${PATCH}; seedhead=pair-plus; node_hairs=yes`],
    [
      'as a guess at the terminal',
      'vernation=folded; habit=stolons; blade_width_mm=6; tip=blunt; seedhead=pair-plus; node_hairs=yes',
    ],
    ['in everyday words', `${PATCH}; seed head a pair of spikes with one below; bearded joints`],
  ])('a pair with one below and bearded joints is carpetgrass, %s', (_, observed) => {
    const result = assess(key, walk(observed, 'centipedegrass', 'carpetgrass'))
    expect(result.result).toBe('weed')
    expect(result.taxon?.group?.id).toBe('carpetgrass')
    expect(result.taxon?.scientificName).toMatch(/^Axonopus /)
    expect(result.advice).toContain('see-products')
    expect(result.spokeFor[0]?.character).toBe('seedhead')
    expect(result.lookAlikes.map((one) => one.n)).toEqual(expect.arrayContaining([1, 4]))
  })

  test.each([`${PATCH}; seedhead=single spike`, `${PATCH}; seedhead=raceme-single; node_hairs=yes`])(
    'a single spike is the lawn itself: %s',
    (observed) => {
      const result = assess(key, walk(observed))
      expect(result.result).toBe('own-turf')
      expect(result.taxon?.id).toBe('centipede')
      expect(result.advice).toContain('dont-spray')
    },
  )

  test('the same answers where carpetgrass is the lawn never name it a weed', () => {
    const result = assess(key, walk(`${PATCH}; seedhead=pair-plus; node_hairs=yes`, 'carpetgrass'))
    expect(result.result).toBe('own-turf')
  })

  test('the same answers where nobody knows the lawn ask for the turf', () => {
    const known = walk(`${PATCH}; seedhead=pair-plus; node_hairs=yes`)
    const result = assess(key, { ...known, turf: { kind: 'unknown' } })
    expect(result.result).toBe('hold')
    expect(result.advice).not.toContain('see-products')
  })

  test('a guess asks for what tells it from the lawn first', () => {
    const question = nextQuestion(key, walk('a grass; folded; stolons', 'centipedegrass', 'carpetgrass'))
    expect(['seedhead', 'node_hairs', 'hairs', 'tip', 'midrib', 'ligule_type', 'blade_width_mm']).toContain(
      question?.character.id,
    )
  })
})
