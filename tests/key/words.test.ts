import { describe, expect, test } from 'vitest'
import { findTaxa, parseKey, parseObserved, taxaNamed } from '#src/key/index.ts'
import { plain } from '#src/key/text.ts'
import { readData } from '#src/project.ts'
import { keyFiles, readKey } from '../../data/taxa/load.ts'

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

function expectUnderstood(text: string, expected: Record<string, string>) {
  expect(parseObserved(key, text).problems).toEqual([])
  expect(read(text)).toEqual(expected)
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
    expectUnderstood(text, expected)
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

describe('what crews say of a plant, in either language', () => {
  // Common practice, no source: how people on a crew put it.
  test.each([
    ['hairy sheath', { hairs: 'sheath' }],
    ['sheath is hairy', { hairs: 'sheath' }],
    ['pelos en la vaina', { hairs: 'sheath' }],
    ['hojas peludas', { hairs: 'blade' }],
    ['hairless', { hairs: 'none' }],
    ['long hairs at the collar', { collar: 'hairy' }],
    ['short membrane ligule', { ligule_type: 'membrane' }],
    ['lígula de pelos', { ligule_type: 'hairs' }],
    ['seed head open', { seedhead: 'panicle-open' }],
    ['open airy seed head', { seedhead: 'panicle-open' }],
    ['two spikes in a V', { seedhead: 'pair-Y' }],
    ['no seed heads yet', { seedhead: 'none-seen' }],
    ['una sola espiga', { seedhead: 'raceme-single' }],
    ['purple seed head', { seedhead_color: 'purple' }],
    ['espiga morada', { seedhead_color: 'purple' }],
    ['4 to 6 fingers', { branches: '4..6' }],
    ['spreading low', { habit: 'prostrate-stems' }],
    ['clumpy', { habit: 'bunch' }],
    ['en macolla', { habit: 'bunch' }],
    ['rosette', { habit: 'rosette' }],
    ['creeping stems', { creeping: 'yes' }],
    ['leaf rolled in bud', { vernation: 'rolled' }],
    ['hoja doblada', { vernation: 'folded' }],
    ['wide blade', { blade_width_mm: '8-15' }],
    ['6 mm wide', { blade_width_mm: '6..6' }],
    ['leaf 6mm', { blade_width_mm: '6..6' }],
    ['punta de bote', { tip: 'boat' }],
    ['heart shaped leaves', { leaf_shape: 'heart' }],
    ['toothed leaves', { leaf_margin: 'toothed' }],
    ['leaves of three', { leaf_type: 'three-leaflets' }],
    ['leaves in 3 rows', { leaf_arrangement: '3-ranked' }],
    ['hojas en 3 filas', { leaf_arrangement: '3-ranked' }],
    ['blade under 2', { blade_width_mm: '0..2' }],
    ['hojas opuestas', { leaf_arrangement: 'opposite' }],
    ['verde claro', { color: 'light-green' }],
    ['savia lechosa', { milky_sap: 'yes' }],
    ['smells like onion', { smell: 'onion' }],
    ['huele a cebolla', { smell: 'onion' }],
    ['white mark on leaf', { leaf_marks: 'white-mark' }],
    ['ridged upper side', { midrib: 'many-ribs' }],
  ])('%s', (text, expected) => {
    expectUnderstood(text, expected)
  })

  test.each([
    ['hoja ancha', 'wide, or a broadleaf'],
    ['wide leaves', 'wide, or a broadleaf'],
    ['smooth', 'without hairs, or without teeth'],
    ['lobed leaves', 'cut deep, or with round lobes'],
    ['blade 6 mm long', 'how wide was not said'],
    ['hoja de 6 mm de largo', 'how wide was not said'],
    ['largas', 'what is long was not said'],
    ['leaf with 5 lobes', 'how wide was not said'],
    ['hoja con 3 puntas', 'how wide was not said'],
  ])('%s is not guessed at: %s', (text) => {
    const { answers, problems } = parseObserved(key, text)
    expect(answers).toEqual([])
    expect(problems).toHaveLength(1)
  })

  test.each([
    ['wide blade', 'fine blade'],
    ['espiga morada', 'espiga cortada'],
    ['delgada', 'dentada'],
  ])('%s is no slip of %s: a word does not stand for another one', (typed, other) => {
    expect(read(typed)).not.toEqual(read(other))
  })

  test.each(['en', 'es'])('what stands on the buttons is understood when it is typed (%s)', (language) => {
    const words: Record<string, string> = {
      ...JSON.parse(readData(`words/${language}/identify.json`)),
      ...JSON.parse(readData(`words/${language}/identify-states.json`)),
    }
    for (const { id, states } of key.characters.filter(({ grid }) => grid === undefined)) {
      for (const state of states) {
        const label = words[`identify.short.${id}.${state.id}`]
        for (const typed of [`${words[`identify.part.${id}`]}: ${label}`, `${id}=${label}`]) {
          expect(read(typed), typed).toSatisfy(
            (seen: Record<string, string>) => seen[id] === state.id || seen[id] === 'absent',
          )
        }
      }
    }
  })

  test('no words mean two states of one character', () => {
    for (const { id, states } of key.characters) {
      const owner = new Map<string, string>()
      for (const state of states) {
        for (const word of [...state.aka, ...(state.withPart ?? [])].map(plain)) {
          expect(owner.get(word) ?? state.id, `${id}: ${word}`).toBe(state.id)
          owner.set(word, state.id)
        }
      }
    }
  })
})

test('words of a crew for a character or state that is not there are a problem that names file and cell', () => {
  const files = keyFiles()
  const odd = {
    name: 'crew-words/xx.json',
    text: '{"tip": {"states": {"forked": ["forked tip"]}}, "taste": {}}',
  }
  const result = parseKey({ ...files, crewWords: [odd] })
  expect(result.ok ? [] : result.error).toEqual([
    { file: odd.name, cell: 'tip.forked', message: 'no such character or state' },
    { file: odd.name, cell: 'taste', message: 'no such character or state' },
  ])
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
    ['rye grass', ['perennial-rye', 'annual-rye']],
    ['rye', ['perennial-rye', 'annual-rye']],
    ['nut grass', ['nutsedge-yellow', 'nutsedge-purple']],
    ['stickers', ['sandbur-longspine', 'sandbur-southern', 'lawn-burweed']],
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
