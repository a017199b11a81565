import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Text } from '#src/conversation/text.ts'
import { mayI } from '#src/label/allow.ts'
import { readBook } from '#src/label/book.ts'
import { problemIds, reasonIds } from '#src/label/ids.ts'
import { sayBookProblem, sayReason, saySource } from '#src/label/words.ts'
import { readData } from '#src/project.ts'
import { loadWords } from '#src/words/load.ts'
import type { Missing } from '#src/words/speak.ts'
import { speak } from '#src/words/speak.ts'
import { loadDemo } from '../../data/demo/load.ts'
import { entry, situation, treatment } from './build.ts'

const words = loadWords()
/** Sentences of the frame around reasons and problems. */
const frame = [
  'any-adjuvant',
  'nameless',
  'problem',
  'problem-in-row',
  'source',
  'source-line',
  'source-page',
]

function spoken(text: Text): { readonly said: string; readonly missing: readonly Missing[] } {
  const missing: Missing[] = []
  const said = speak(words, text, {
    locale: 'en',
    escape: (typed) => typed,
    onMissing: (one) => missing.push(one),
  })
  return { said, missing }
}

describe('the words of the label room', () => {
  test('cover every reason and problem and hold nothing else', () => {
    const known = new Set([...reasonIds, ...problemIds, ...frame].map((id) => `label.${id}`))
    const written = Object.keys(JSON.parse(readData('words/en/label.json')))
    expect(written.filter((id) => !known.has(id))).toEqual([])
    expect([...known].filter((id) => !written.includes(id))).toEqual([])
  })

  test('stand in Spanish with the same parameters', () => {
    const parameters = (locale: string, id: string) =>
      new Set(words.find(locale, id)?.parameters ?? [`no ${id}`])
    for (const id of Object.keys(JSON.parse(readData('words/es/label.json')))) {
      expect(parameters('es', id), id).toEqual(parameters('en', id))
    }
    const written = (locale: string) => Object.keys(JSON.parse(readData(`words/${locale}/label.json`)))
    expect(written('es')).toEqual(written('en'))
  })

  test('say a refusal with its number first, and the line of the label', () => {
    const limited = entry({
      limits: { interval: [{ days: 28, counts: 'product', line: 'Wait 28 days.', page: '3' }] },
    })
    const past = [treatment(limited, '2025-06-10', '0.4 oz wt/1000 ft2')]
    const [first] = mayI(limited, situation({ treatments: past })).reasons
    expect(first && spoken(sayReason(first)).said).toMatchInlineSnapshot(
      `"No: 28 days between treatments. The last was on Tue, Jun 10, 2025, the next is from Tue, Jul 8, 2025."`,
    )
    expect(first && saySource(first) && spoken(saySource(first) as Text).said).toBe(
      'Label, page 3: “Wait 28 days.”',
    )
  })

  test('say what is wrong with a file by row, name and field', () => {
    const read = readBook(
      JSON.stringify({ entries: [entry(), { ...entry(), name: 'Second', form: 'powder' }] }),
    )
    const said = read.ok ? [] : read.error.map((problem) => spoken(sayBookProblem(problem)).said)
    expect(said).toEqual(['Row 2 (Second), form: must be dry or liquid.'])
  })

  test('lack no parameter, whatever the demo crew asks', () => {
    const { book } = loadDemo()
    const anything = fc.record({
      used: fc.constantFrom(...book),
      turfs: fc.subarray(['kbg', 'bermuda', 'centipede', 'kikuyu']),
      weed: fc.constantFrom('dandelion', 'nutsedge-yellow', 'annual-blue'),
      season: fc.constantFrom('spring' as const, 'winter' as const),
      treatment: fc.constantFrom('first' as const, 'repeat' as const),
      adjuvant: fc.constantFrom('with' as const, 'without' as const),
      licensed: fc.boolean(),
      lastConfirmedOn: fc.constantFrom('2025-06-01', '2024-07-15', '2024-06-15', '2023-06-01', null),
      partners: fc.constantFrom([], ['Stilbrack 41 SL'], ['Wraxmoor 20 ME']),
      water: fc.constantFrom('unknown' as const, { value: '10', unit: 'ft' } as const),
      degrees: fc.integer({ min: 30, max: 99 }),
      speed: fc.integer({ min: 0, max: 15 }),
    })
    fc.assert(
      fc.property(anything, ({ used, degrees, speed, ...asked }) => {
        const conditions = {
          temperature: { value: String(degrees), unit: 'F' },
          wind: { value: String(speed), unit: 'mph' },
          rainInHours: 1,
        } as const
        const past = [treatment(used, '2025-06-20', used.form === 'dry' ? '0.2 oz wt/1000 ft2' : '2 pt/acre')]
        const { reasons } = mayI(
          used,
          situation({
            ...asked,
            conditions,
            treatments: past,
            mownOn: '2025-06-30',
            seededOn: '2025-06-01',
            state: 'NY',
          }),
        )
        expect(reasons.flatMap((reason) => spoken(sayReason(reason)).missing)).toEqual([])
      }),
    )
  })
})
