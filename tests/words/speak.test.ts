import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { asTyped, type Param, say } from '#src/conversation/text.ts'
import { buildCatalogue } from '#src/words/catalogue.ts'
import { loadWords } from '#src/words/load.ts'
import { outcomeMark, outcomeWord } from '#src/words/outcome.ts'
import { PSEUDO } from '#src/words/pseudo.ts'
import { type Missing, speak, speakForRecord } from '#src/words/speak.ts'

const words = buildCatalogue([
  {
    locale: 'en',
    name: 'test.json',
    content: {
      'words.intl-locale': 'en-US',
      'words.as-typed': '{words}',
      'test.fill': 'Fill to {volume}',
      'test.who': '{who} wrote {what}',
      'test.days': '{count, plural, one {# day} other {# days}} left of {count}',
      'test.amount': 'Use {amount, select, none {nothing} other {some: {amount}}}',
      'test.when': 'On {day}, at {moment}',
      'test.until': 'Keep off until {moment}. Then look.',
      'test.why': 'Not yet: {why}.',
      'test.note': 'Note: {note}.',
      'test.any': 'One of {all}',
      'test.below': 'Below < 5 mph, {name}’s limit',
      'test.english-only': 'Only here',
      'unit.day': '{number, plural, one {# day} other {# days}}',
    },
  },
  {
    locale: 'es',
    name: 'test.json',
    content: {
      'words.intl-locale': 'es-US',
      'test.fill': 'Llene hasta {volume}',
      'test.days': '{count, plural, one {queda # día} other {quedan # días}} de {count}',
      'test.when': 'El {day}, a las {moment}',
      'test.until': 'No pise hasta {moment}. Luego mire.',
      'test.any': 'Uno de {all}',
    },
  },
])

const escaped = (typed: string) => typed.replace(/[*_@]/g, '\\$&')
const inEnglish = (id: string, parameters?: Record<string, Param>) =>
  speak(words, say(id, parameters), { locale: 'en', escape: escaped })
const inSpanish = (id: string, parameters?: Record<string, Param>) =>
  speak(words, say(id, parameters), { locale: 'es-MX', escape: escaped })

describe('parameters', () => {
  test.each([
    { volume: { value: '2', unit: 'gal' }, en: 'Fill to 2 gal', es: 'Llene hasta 2 gal' },
    {
      volume: { value: '0.113', unit: 'oz wt/1000 ft2' },
      en: 'Fill to 0.113 oz wt/1000 ft²',
      es: 'Llene hasta 0.113 oz peso/1000 pies²',
    },
    {
      volume: { value: '2', unit: 'lb ai/acre' },
      en: 'Fill to 2 lb ai/acre',
      es: 'Llene hasta 2 lb ai/acre',
    },
    {
      volume: { value: '18500', unit: 'ft2' },
      en: 'Fill to 18,500 ft²',
      es: 'Llene hasta 18\u202f500 pies²',
    },
    { volume: { value: '28', unit: 'day' }, en: 'Fill to 28 days', es: 'Llene hasta 28 days' },
    { volume: { value: '1', unit: 'day' }, en: 'Fill to 1 day', es: 'Llene hasta 1 day' },
    { volume: { value: '3', unit: 'bucket' }, en: 'Fill to 3 bucket', es: 'Llene hasta 3 bucket' },
    { volume: 43560, en: 'Fill to 43,560', es: 'Llene hasta 43\u202f560' },
    { volume: 0.33333333, en: 'Fill to 0.3333', es: 'Llene hasta 0.3333' },
    { volume: Number.NaN, en: 'Fill to NaN', es: 'Llene hasta NaN' },
    { volume: { literal: '`/mix` *now*' }, en: 'Fill to `/mix` *now*', es: 'Llene hasta `/mix` *now*' },
    { volume: 'the *top*', en: 'Fill to the \\*top\\*', es: 'Llene hasta the \\*top\\*' },
    {
      volume: say('test.fill', { volume: '@all' }),
      en: 'Fill to Fill to \\@all',
      es: 'Llene hasta Llene hasta \\@all',
    },
  ] as { volume: Param; en: string; es: string }[])('$en', ({ volume, en, es }) => {
    expect(inEnglish('test.fill', { volume })).toBe(en)
    expect(inSpanish('test.fill', { volume })).toBe(es)
  })

  test('a day has no zone, a moment has one', () => {
    const atMs = Date.UTC(2026, 5, 3, 3, 5) // 11:05 PM on Tuesday in New York
    const parameters = {
      day: { day: '2026-06-03' }, // a Wednesday
      moment: { atMs, zone: 'America/New_York', style: 'date-time' },
    } as const
    expect(inEnglish('test.when', parameters)).toBe('On Wed, Jun 3, 2026, at Tue, Jun 2, 2026, 11:05 PM')
    expect(inSpanish('test.when', parameters)).toMatch(
      /^El mié, 3 de jun de 2026, a las mar, 2 de jun de 2026, 11:05 p\.\s?m\.$/,
    )
    const zoned = speak(words, say('test.when', parameters), {
      locale: 'en',
      escape,
      zone: 'America/Los_Angeles',
    })
    expect(zoned).toContain('Tue, Jun 2, 2026, 8:05 PM')
  })

  test.each([
    { join: 'and', en: 'One of a, b, and 2 gal', es: 'Uno de a, b y 2 gal' },
    { join: 'or', en: 'One of a, b, or 2 gal', es: 'Uno de a, b o 2 gal' },
    { join: 'lines', en: 'One of a\nb\n2 gal', es: 'Uno de a\nb\n2 gal' },
  ] as const)('lists are joined: $join', ({ join, en, es }) => {
    const all = { all: ['a', 'b', { value: '2', unit: 'gal' }], join }
    expect(inEnglish('test.any', { all })).toBe(en)
    expect(inSpanish('test.any', { all })).toBe(es)
  })

  test('a time with stops of its own ends a sentence with one; what was typed keeps all of its own', () => {
    const moment: Param = { atMs: Date.parse('2026-07-01T19:00:00Z'), zone: 'America/Chicago', style: 'time' }
    const until = say('test.until', { moment })
    const why = say('test.why', { why: until })
    const inSpanish = { locale: 'es', escape: (typed: string) => typed }
    expect(speak(words, until, inSpanish)).toMatch(/^No pise hasta 2:00\sp\.\s?m\. Luego mire\.$/)
    expect(speak(words, why, inSpanish)).toMatch(/^Not yet: No pise .* Luego mire\.$/)
    const note = say('test.note', { note: 'came at 3 p.m.' })
    expect(speak(words, note, inSpanish)).toBe('Note: came at 3 p.m..')
  })

  test('one number decides the plural and is printed in the reader’s habit', () => {
    expect(inEnglish('test.days', { count: 1 })).toBe('1 day left of 1')
    expect(inEnglish('test.days', { count: 1500 })).toBe('1,500 days left of 1,500')
    expect(inSpanish('test.days', { count: 1 })).toBe('queda 1 día de 1')
  })

  test('a text decides a selection as it was given, and is shown escaped', () => {
    expect(inEnglish('test.amount', { amount: 'none' })).toBe('Use nothing')
    expect(inEnglish('test.amount', { amount: '*2*' })).toBe('Use some: \\*2\\*')
  })

  test('tags are plain text', () => {
    expect(inEnglish('test.below', { name: 'Ana' })).toBe('Below < 5 mph, Ana’s limit')
  })
})

describe('what people typed', () => {
  test.each([
    { typed: 'a\u0000b\u0007c', shown: 'abc', why: 'control characters' },
    { typed: '\u202eevil\u202c', shown: 'evil', why: 'a turned reading direction' },
    { typed: 'two\u200b words\ufeff', shown: 'two words', why: 'zero width' },
    { typed: 'half \ud83d pair', shown: 'half  pair', why: 'half of a pair' },
    { typed: 'whole \u{1f33f} pair', shown: 'whole \u{1f33f} pair', why: 'whole pairs stay' },
    { typed: 'línea\notra', shown: 'línea\notra', why: 'lines stay' },
    { typed: '{volume} {', shown: '{volume} {', why: 'braces are no parameters' },
    { typed: "it's 'quoted'", shown: "it's 'quoted'", why: 'quotes are no ICU' },
  ])('$why', ({ typed, shown }) => {
    expect(speak(words, asTyped(typed), { locale: 'en', escape: (text) => text })).toBe(shown)
  })

  test('whatever is typed passes through escape, and nothing else does', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (typed) => {
        const seen: string[] = []
        const shown = speak(words, say('test.who', { who: typed, what: { literal: '*' } }), {
          locale: 'en',
          escape: (text) => {
            seen.push(text)
            return 'SAFE'
          },
        })
        expect(shown).toBe('SAFE wrote *')
        expect(seen).toHaveLength(1)
      }),
    )
  })
})

describe('what is missing', () => {
  test('a missing sentence shows its id and keeps its amounts', () => {
    const missing: Missing[] = []
    const style = { locale: 'en', escape: escaped, onMissing: (one: Missing) => missing.push(one) }
    const text = say('test.gone', { volume: { value: '2', unit: 'gal' } })
    expect(speak(words, text, style)).toBe('[test.gone] 2 gal')
    expect(missing).toEqual([{ id: 'test.gone', parameters: [] }])
  })

  test('a missing parameter shows its name', () => {
    const missing: Missing[] = []
    const style = { locale: 'en', escape: escaped, onMissing: (one: Missing) => missing.push(one) }
    expect(speak(words, say('test.fill'), style)).toBe('Fill to [volume]')
    expect(speak(words, say('test.days'), style)).toBe('[count] days left of [count]')
    expect(missing.map(({ parameters }) => parameters)).toEqual([['volume'], ['count']])
  })

  test('a sentence without Spanish is said in English, an unknown language in English', () => {
    expect(inSpanish('test.english-only')).toBe('Only here')
    expect(speak(words, say('test.fill', { volume: 'x' }), { locale: 'ja', escape: escaped })).toBe(
      'Fill to x',
    )
  })

  test('names of every object are no parameters', () => {
    expect(inEnglish('test.who', { who: 'a' })).toBe('a wrote [what]')
    expect(inEnglish('constructor.toString')).toBe('[constructor.toString]')
  })
})

describe('the pseudo-language', () => {
  const real = loadWords()
  const plainLetters = /[a-zA-Z]{3}/

  test('every English text gets accents and two fifths more, and keeps its parameters', () => {
    for (const id of real.ids('en')) {
      const english = real.find('en', id)
      const pseudo = real.find(PSEUDO, id)
      expect(pseudo?.parameters, id).toEqual(english?.parameters)
      const values = Object.fromEntries((english?.parameters ?? []).map((name) => [name, '1']))
      const plain = english?.say(values, values) ?? ''
      const stretched = pseudo?.say(values, values) ?? ''
      const letters = plain.match(/[a-z]/gi)?.length ?? 0
      expect(stretched, id).not.toMatch(plainLetters)
      expect(stretched.length, id).toBeGreaterThanOrEqual(plain.length + Math.floor(letters * 0.4))
    }
  })

  test('what people typed stays as it is', () => {
    expect(speak(words, say('test.fill', { volume: 'top' }), { locale: PSEUDO, escape: escaped })).toMatch(
      /^Ƒîļļ ţö\S* top/,
    )
  })
})

test('each outcome has a mark and a word of its own, none a signal word of labels', () => {
  const outcomes = ['answer', 'heads-up', 'question', 'hold', 'refusal'] as const
  expect(new Set(outcomes.map(outcomeMark)).size).toBe(outcomes.length)
  for (const locale of ['en', 'es']) {
    const said = outcomes.map((outcome) =>
      speak(loadWords(), outcomeWord(outcome), { locale, escape: escaped }),
    )
    expect(new Set(said).size).toBe(outcomes.length)
    for (const word of said)
      expect(word).not.toMatch(/danger|warning|caution|peligro|aviso|precauci|cuidado/i)
  }
})

test('a record is English whatever the chat was, with words kept as typed', () => {
  expect(speakForRecord(words, say('test.fill', { volume: '*lleno*' }))).toBe('Fill to *lleno*')
})

test('a sentence takes less than half a millisecond once it is known', () => {
  const style = { locale: 'en', escape: escaped }
  const text = say('test.days', { count: 12 })
  speak(words, text, style)
  const startMs = performance.now()
  for (let i = 0; i < 1000; i++) speak(words, text, style)
  expect(performance.now() - startMs).toBeLessThan(500)
})
