import { describe, expect, test } from 'vitest'
import { findTaxa, parseObserved, taxaNamed } from '#src/key/index.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()

function read(text: string): Record<string, string> {
  const { answers } = parseObserved(key, text)
  return Object.fromEntries(
    answers.map((answer) => [
      answer.character,
      answer.kind === 'states'
        ? answer.states.join('|')
        : answer.kind === 'range'
          ? `${answer.from}..${answer.to}`
          : answer.kind,
    ]),
  )
}

describe('what people have seen, in their words', () => {
  test.each([
    ['vernation=folded; habit=stolons', { vernation: 'folded', habit: 'stolons' }],
    ['seedhead=none seen; tip: blunt', { seedhead: 'none-seen', tip: 'blunt' }],
    [
      'no seed head, folded in the bud, stolons',
      { seedhead: 'none-seen', vernation: 'folded', habit: 'stolons' },
    ],
    ['a grass; blade 6 mm; blunt tip', { group: 'grass', blade_width_mm: '6..6', tip: 'blunt' }],
    ['blade_width_mm=6', { blade_width_mm: '6..6' }],
    ['leaf width: 4-8 mm', { blade_width_mm: '4..8' }],
    ['blade 1/4 inch wide', { blade_width_mm: '6.35..6.35' }],
    ['ligule fringe of hairs; ligule 2 mm', { ligule_type: 'hairs', ligule_mm: '2..2' }],
    ['no auricles; ligule absent', { auricles: 'none', ligule_type: 'absent' }],
    ['stolons and rhizomes', { habit: 'stolons|rhizomes' }],
    ['habit=stolons; rhizomes', { habit: 'stolons|rhizomes' }],
    ['seed head pair with one below; bearded joints', { seedhead: 'pair-plus', node_hairs: 'yes' }],
    ['single spike; nodes hairy', { seedhead: 'raceme-single', node_hairs: 'yes' }],
    ['stem three-sided; tubers in chains', { stem_section: 'triangular', underground: 'tubers-chain' }],
    [
      'white flowers, milky sap, taproot',
      { flower_color: 'white', milky_sap: 'yes', underground: 'taproot' },
    ],
    ['verntion=foldd; habbit=stolens', { vernation: 'folded', habit: 'stolons' }],
    ["tip=can't tell; midrib=?", { tip: 'cant-tell', midrib: 'cant-tell' }],
    ['collar=absent', { collar: 'absent' }],
    ['month=June', { flower_months: '6' }],
  ])('%s', (text, expected) => {
    expect(parseObserved(key, text).problems).toEqual([])
    expect(read(text)).toEqual(expected)
  })

  test.each([
    ['hairy', { kind: 'ambiguous', text: 'hairy' }],
    ['blah', { kind: 'unknown-character', text: 'blah' }],
    ['vernation=purple', { kind: 'unknown-state', character: 'vernation', allowed: ['folded', 'rolled'] }],
    ['blade=wide as a barn', { kind: 'not-a-number', character: 'blade_width_mm' }],
    ['vernation=folded; vernation=rolled', { kind: 'twice', character: 'vernation' }],
  ])('%s is a problem, not a guess', (text, expected) => {
    expect(parseObserved(key, text).problems[0]).toMatchObject(expected)
  })

  test('keeps what it understood beside what it did not', () => {
    const { answers, problems } = parseObserved(key, 'folded; blah; stolons')
    expect(answers.map((answer) => answer.character)).toEqual(['vernation', 'habit'])
    expect(problems).toHaveLength(1)
  })

  test('every id of every state is understood', () => {
    for (const character of key.characters) {
      for (const state of character.states) {
        const { answers, problems } = parseObserved(key, `${character.id}=${state.id}`)
        expect(problems).toEqual([])
        expect(answers).toHaveLength(1)
      }
    }
  })
})

describe('names of plants', () => {
  test.each([
    ['centipedegrass', ['centipede']],
    ['Centipede grass', ['centipede']],
    ['St Augustine', ['st-augustine']],
    ['Saint Augustinegrass', ['st-augustine']],
    ['San Agustín', ['st-augustine']],
    ['bermudagrass', ['bermuda', 'bermuda-hybrid']],
    ['carpetgrass', ['carpet-common', 'carpet-tropical']],
    ['crabgrass', ['crab-smooth', 'crab-large', 'crab-southern']],
    ['Poa annua', ['annual-blue']],
    ['dandylion', ['dandelion']],
    ['trebol blanco', ['white-clover']],
    ['creeping Charlie', ['ground-ivy']],
    ['dollarweed', ['pennywort']],
    ['ryegrass', ['perennial-rye', 'annual-rye']],
  ])('%s', (name, ids) => {
    expect([...taxaNamed(key, name)].sort()).toEqual([...ids].sort())
  })

  test('every plant is found by its own names', () => {
    for (const taxon of key.taxa) {
      for (const name of [taxon.names.en, taxon.scientificName.split(';')[0] ?? '']) {
        expect(findTaxa(key, name)[0]?.ids, name).toContain(taxon.id)
      }
    }
  })

  test('a name that is none finds nothing', () => {
    expect(findTaxa(key, 'xylophone')).toEqual([])
    expect(findTaxa(key, '  ')).toEqual([])
  })
})
