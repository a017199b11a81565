import fc from 'fast-check'
import { expect, test } from 'vitest'
import { loadEmergencyFinder } from '#src/words/load.ts'
import { FIRES, QUIET } from './emergency-phrases.ts'

const find = loadEmergencyFinder()

/** Every sentence made of one part from each list. */
function sentences(...parts: readonly (readonly string[])[]): string[] {
  return parts.reduce<string[]>(
    (begun, part) => begun.flatMap((start) => part.map((word) => `${start} ${word}`.trim())),
    [''],
  )
}

const unheard = (texts: readonly string[], kinds: readonly string[]) =>
  texts.filter((text) => !kinds.includes(find(text)?.kind ?? ''))
const heard = (texts: readonly string[]) => texts.filter((text) => find(text) !== null)

test('product that reaches a body is heard, however it is put in English', () => {
  const texts = sentences(
    [
      'got it',
      'i got some',
      'he spilled concentrate',
      'it splashed',
      'product dripped',
      'the spray blew',
      'it leaked',
      'some squirted',
    ],
    ['in', 'on', 'into', 'onto', 'all over'],
    ['my', 'his', 'her'],
    [
      'eye',
      'eyes',
      'face',
      'mouth',
      'skin',
      'hand',
      'hands',
      'arm',
      'left arm',
      'leg',
      'neck',
      'chest',
      'hair',
      'lips',
    ],
  )
  expect(unheard(texts, ['exposure'])).toEqual([])
})

test('product that reaches a body is heard, however it is put in Spanish', () => {
  const texts = sentences(
    ['me', 'le', 'se me', 'se le'],
    ['cayó', 'cayo', 'salpicó', 'chorreó', 'derramó', 'echó'],
    ['', 'producto', 'concentrado', 'un poco', 'la mezcla'],
    [
      'en el ojo',
      'en los ojos',
      'en la cara',
      'en la boca',
      'en la piel',
      'en la mano',
      'en las manos',
      'en el brazo',
      'en la pierna',
      'en el cuello',
    ],
  )
  expect(unheard(texts, ['exposure'])).toEqual([])
})

test('illness of a person is heard in both languages', () => {
  const english = sentences(
    ['i feel', 'im feeling', 'he feels', 'she is', 'my coworker is', 'he got', 'the new guy feels'],
    ['', 'very', 'really', 'a little', 'kind of'],
    ['dizzy', 'sick', 'nauseous', 'faint', 'ill', 'lightheaded'],
  )
  const spanish = sentences(
    ['me siento', 'se siente', 'estoy', 'anda', 'el compañero está', 'mi ayudante se siente'],
    ['', 'muy', 'un poco', 'medio'],
    ['mareado', 'mareada', 'mariado', 'con náuseas', 'intoxicado'],
  )
  expect(unheard([...english, ...spanish], ['illness'])).toEqual([])
})

test('plants and tools may look as bad as they like', () => {
  const english = sentences(
    ['the grass', 'lawn', 'this turf', 'that weed', 'the leaf', 'the tree', 'the patch', 'the fairway'],
    ['looks', 'is', 'seems', 'got', 'looks really', 'is a bit'],
    ['sick', 'burned', 'burnt', 'weak', 'poisoned', 'stressed', 'swollen', 'faint', 'red', 'bad', 'ill'],
  )
  const spanish = sentences(
    ['el zacate', 'el pasto', 'el césped', 'la maleza', 'la hoja', 'la planta'],
    ['está', 'se ve', 'se puso', 'quedó', 'está muy'],
    ['enfermo', 'enferma', 'quemado', 'quemada', 'mal', 'débil', 'rojo', 'seco', 'hinchado'],
  )
  expect(heard([...english, ...spanish])).toEqual([])
})

test('mixing, measuring and mowing are no emergency', () => {
  const texts = sentences(
    ['sprayed', 'spraying', 'mix for', 'poured concentrate for', 'put product on', 'rocié', 'mezcla para'],
    [
      'the back yard',
      'the front lawn',
      '2 acres',
      '18,500 ft2',
      'the infield',
      'hole 4',
      'the head of the fairway',
      'el campo',
      'la yarda',
      'mil pies cuadrados',
    ],
    ['', 'today', 'with the hand can', 'at 30 psi', 'on foot', 'hoy', 'con bomba de mochila'],
  )
  expect(heard(texts)).toEqual([])
})

/** Long words of alarm with one slip: a letter left out, doubled, or two swapped; the first letter stands. */
const slipped = fc
  .record({
    word: fc.constantFrom(
      'dizzy',
      'nauseous',
      'vomiting',
      'swallowed',
      'unconscious',
      'fainted',
      'convulsions',
      'inhaled',
      'mareado',
      'desmayado',
      'vomitando',
      'náuseas',
      'intoxicado',
      'inconsciente',
    ),
    at: fc.nat(),
    slip: fc.constantFrom('drop', 'double', 'swap'),
  })
  .map(({ word, at, slip }) => {
    const place = 1 + (at % (word.length - 2))
    const [before, letter, next, rest] = [
      word.slice(0, place),
      word[place],
      word[place + 1],
      word.slice(place + 2),
    ]
    if (slip === 'drop') return before + next + rest
    return slip === 'double' ? before + letter + letter + next + rest : before + next + letter + rest
  })

test('one slip of the finger does not hide a word of alarm', () => {
  fc.assert(
    fc.property(slipped, (word) => {
      expect(find(word), word).not.toBeNull()
    }),
    { numRuns: 400 },
  )
})

test('case, accents, exclamation marks and what stands before or behind change nothing', () => {
  const firing = fc.constantFrom(...Object.values(FIRES).flat())
  const quiet = fc.constantFrom(...QUIET)
  fc.assert(
    fc.property(firing, quiet, fc.boolean(), (alarm, other, isFirst) => {
      const plain = alarm.normalize('NFD').replace(/\p{M}/gu, '').toUpperCase()
      const text = isFirst ? `${plain}!!! ${other}.` : `${other}.\n${plain}`
      expect(find(text), text).not.toBeNull()
    }),
    { numRuns: 500 },
  )
})

test('any text is read, quickly, and what is matched stands in it', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 500 }), (text) => {
      const found = find(text)
      expect(found === null || text.includes(found.matched)).toBe(true)
    }),
  )
  const long = 'got the mower in the yard and sprayed the back of the house with the hand can '.repeat(60)
  const startMs = performance.now()
  find(long)
  expect(performance.now() - startMs).toBeLessThan(500)
})
