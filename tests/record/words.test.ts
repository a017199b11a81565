import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Text } from '#src/conversation/text.ts'
import { notRecorded } from '#src/record/not-recorded.ts'
import { sayPosting } from '#src/record/posting.ts'
import type { RecordDraft } from '#src/record/record.ts'
import { ruleSetFor } from '#src/record/rule-set.ts'
import { recordRules } from '#src/record/rules/all.ts'
import { statusOf } from '#src/record/status.ts'
import { sayRuleSource, sayTables } from '#src/record/words.ts'
import { loadWords } from '#src/words/load.ts'
import type { Missing } from '#src/words/speak.ts'
import { speak, speakForRecord } from '#src/words/speak.ts'
import { at, context, draft, english, product, spanish, tables, units } from './build.ts'

const words = loadWords()
const said = (text: Text) => speakForRecord(words, text)

function lackingIn(text: Text): readonly Missing[] {
  const missing: Missing[] = []
  speak(words, text, { locale: 'en', escape: (typed) => typed, onMissing: (one) => missing.push(one) })
  return missing
}

describe('what a crew reads about a record', () => {
  const rows: readonly (readonly [rule: string, given: RecordDraft, sentence: string])[] = [
    ['V1', draft({ date: '2025-07-01' }), 'Tue, Jul 1, 2025 has not come yet, today is Mon, Jun 30, 2025.'],
    ['V2', draft({ endedAt: at('2025-06-30 09:00') }), 'The end, 09:00, is not after the start, 09:15.'],
    [
      'V5',
      draft({ products: [product({ registration: '9999999-2' })] }),
      '“9999999-2” is not the number of Invented 75 WDG, which is 9999999-1.',
    ],
    [
      'V16',
      draft({ products: [product({ amount: units.ounces('3') })] }),
      'Invented 75 WDG: 3 oz wt was written, and rate and area ask for 2 oz wt. Write why in the notes, or correct it.',
    ],
    [
      'V29',
      draft({ mixDrawn: units.gallons('6') }),
      '5 gal was mixed, and the records draw 1 gal more than that.',
    ],
    [
      'V30',
      draft({ license: { number: 'DEMO-L1', expiresOn: '2025-06-01' } }),
      'License DEMO-L1 ran out on Sun, Jun 1, 2025.',
    ],
    [
      'V21',
      { ...draft({ placeWords: english('lawn') }), placeAddress: notRecorded },
      '“lawn” would not lead a stranger there. Say where on the property.',
    ],
  ]
  test.each(rows)('%s', (rule, given, sentence) => {
    const found = recordRules.find(({ id }) => id === rule)?.check(given, context()) ?? []
    expect(found.filter(({ element }) => element === undefined).map(({ text }) => said(text))).toEqual([
      sentence,
    ])
  })

  test('signs are told with size, height and time, as the state has them', () => {
    const { posting } = ruleSetFor('OH', tables).state
    expect(posting && said(sayPosting(posting))).toBe(
      'The state asks for signs at conspicuous points, within 5 ft of an access point: up at the time of the work, at least 5 in by 4 in, lower edge at least 14 in up, and down after 24 hours',
    )
  })

  test('the tables are an aid, and a state without one is told so', () => {
    expect(sayTables(ruleSetFor('TX', tables)).map(said)).toEqual([
      'This list is an aid. The text of Texas Department of Agriculture governs.',
    ])
    expect(sayTables(ruleSetFor('ZZ', tables)).map(said)[0]).toBe(
      'No table for this state is loaded, so the strict list is asked: same day, kept 7 years.',
    )
  })

  test('a source says on which day it was read, or what it is instead', () => {
    const all = [...tables.states.values(), tables.federal, tables.fallback].flatMap(({ sources }) =>
      Object.values(sources),
    )
    for (const source of all) {
      const sentence = said(sayRuleSource(source))
      expect(lackingIn(sayRuleSource(source)), source.citation).toEqual([])
      expect(sentence).toMatch(/read on|not read again|from memory|a proposal/)
    }
  })

  test('no sentence lacks a parameter, whatever a record says', () => {
    const odd: readonly Partial<RecordDraft>[] = [
      { date: '2025-07-09' },
      { endedAt: at('2025-07-01 00:10') },
      { products: [product({ registration: 'RE', specialLocalNeed: 'x', label: notRecorded })] },
      {
        products: [
          product({ amount: units.ounces('9'), registration: '1-CA-1' }),
          product({ name: 'Unheard' }),
        ],
      },
      { treatedArea: units.square('0') },
      { coverage: 'spots', grounds: 'nursery', placeAddress: notRecorded },
      { placeWords: spanish('aquí') },
      { method: { kind: 'aerial' } },
      { carrier: { kind: 'other' }, mixingPlace: { at: 'other' } },
      { license: { none: true }, supervisor: { none: true } },
      { ppe: { text: ['Boots'], confirmed: false }, customerTold: false },
      { posting: { done: false }, notices: [{ to: 'neighbor', done: false }] },
      { customerCopy: { sentOn: '2025-09-01', how: 'email' } },
      { unusual: { happened: true } },
      { siteOrder: { place: 9, of: 2 }, keepUntil: '2026-01-01' },
      { fertilizer: { applied: true }, droplets: 'fine', recheckOn: '2025-07-01' },
      {
        windSpeed: [{ value: { value: '99', unit: 'mph' }, takenAt: at('2025-06-30 09:10') }],
        inversion: ['ground-fog'],
      },
      { mixDrawn: units.gallons('4'), leftover: notRecorded },
    ]
    const states = fc.constantFrom('TX', 'NY', 'OH', 'WI', 'IL', 'ME', 'NJ', undefined)
    fc.assert(
      fc.property(fc.subarray([...odd]), states, (parts, state) => {
        const given = draft(Object.assign({}, ...parts) as Partial<RecordDraft>)
        const known = context({
          now: at('2025-07-20 08:00'),
          writtenAt: at('2025-07-20 08:00'),
          propertyFt2: '100',
          sitesOfMix: 2,
          asked: { turfs: ['bermuda'] },
          ...(state === undefined ? {} : { state }),
        })
        const { findings, missing } = statusOf(given, known)
        const texts = [...findings, ...missing].map(({ text }) => text)
        expect(texts.flatMap(lackingIn)).toEqual([])
      }),
      { numRuns: 80 },
    )
  })
})
