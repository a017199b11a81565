import { describe, expect, test } from 'vitest'
import { keyWords, sayAnswer, sayCell } from '#src/identify/words.ts'
import { plants, plantWords } from '#src/plants.ts'
import { buildCatalogue } from '#src/words/catalogue.ts'
import { readWordFiles } from '#src/words/load.ts'
import { speakForRecord } from '#src/words/speak.ts'

const words = buildCatalogue([...readWordFiles(), ...plantWords(), ...keyWords()])
const { characters, taxa } = plants()
/** The platform's buttons stand side by side up to this length; a number and a blank come before the words. */
const BUTTON = 20

describe.each(characters.map((one) => [one.id, one] as const))('%s', (id, { states, kind }) => {
  test('has a short name and a question', () => {
    expect(words.source('en', `identify.part.${id}`)).not.toBeNull()
    expect(words.source('en', `ask.${id}`)).not.toBeNull()
  })

  test('has a short word for each state that fits a button and is like no other', () => {
    const short = states.map((state) => words.source('en', `identify.short.${id}.${state.id}`) ?? '')
    // Hallmarks are never all offered at once, so their numbers have one digit.
    const digits = kind === 'hallmark' ? 1 : String(Math.min(states.length, 12)).length
    for (const word of short) {
      expect(word.length).toBeGreaterThan(0)
      expect(word.length + digits + 1, word).toBeLessThanOrEqual(BUTTON)
    }
    expect(new Set(short).size).toBe(states.length)
  })

  test('every state is said in full', () => {
    for (const state of states) expect(words.source('en', `state.${id}.${state.id}`)).toBe(state.words.en)
  })
})

test.each([
  [sayAnswer({ kind: 'states', character: 'vernation', states: ['folded'] }), 'youngest leaf: folded in two'],
  [sayAnswer({ kind: 'range', character: 'blade_width_mm', from: 6, to: 6 }), 'blade width: 6 mm'],
  [sayAnswer({ kind: 'range', character: 'branches', from: 2, to: 4 }), 'branches of the head: 2 to 4'],
  [sayAnswer({ kind: 'absent', character: 'leaf_stalk' }), 'leaf stalk: it has none'],
  [sayAnswer({ kind: 'cant-tell', character: 'hairs' }), "hairs: Can't tell"],
])('an answer is read back: %#', (text, expected) => {
  expect(speakForRecord(words, text)).toBe(expected)
})

test('every cell of the table can be said', () => {
  for (const { cells } of taxa)
    for (const [character, cell] of Object.entries(cells)) {
      const text = sayCell(character, cell)
      if (text !== null) expect(speakForRecord(words, text)).not.toMatch(/\[/)
    }
})
