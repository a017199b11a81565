import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { askFor, withSet } from '#src/conversation/ask-for.ts'
import { filesOf, refill, textOf, ticksOf } from '#src/conversation/fields.ts'
import { Reply, reply } from '#src/conversation/reply.ts'
import { type Param, say, Text } from '#src/conversation/text.ts'
import { readToken, writeToken } from '#src/conversation/token.ts'

describe('a token', () => {
  test('names its turn and choice, and comes back as it was', () => {
    const choice = fc.oneof(fc.integer({ min: 1, max: 99 }), fc.constant('form' as const))
    const token = fc.record({ turnId: fc.integer({ min: 0, max: 36 ** 10 - 1 }), choice })
    fc.assert(
      fc.property(token, (one) => {
        expect(readToken(writeToken(one))).toEqual(one)
      }),
    )
  })

  test('is short enough for any messenger', () => {
    expect(writeToken({ turnId: 36 ** 10 - 1, choice: 'form' }).length).toBeLessThanOrEqual(16)
  })

  test('is nothing else: what this program did not write is null', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        const read = readToken(text)
        expect(read === null || /^s1\.[0-9a-z]+\.(f|[1-9]\d?)$/.test(text)).toBe(true)
      }),
    )
    for (const text of ['S1.1.1', 's1.1.1 ', ' s1.1.1', 's1.1.01', 's1.1.100', 's1.-1.1', 's1.1.1\n'])
      expect(readToken(text), JSON.stringify(text)).toBeNull()
  })
})

describe('a reply', () => {
  const param: fc.Arbitrary<Param> = fc.letrec<{ param: Param; text: Text }>((tie) => ({
    param: fc.oneof(
      { depthSize: 'small' },
      fc.string(),
      fc.integer(),
      fc.record({ value: fc.string(), unit: fc.string() }),
      fc.record({ day: fc.string() }),
      fc.record({ literal: fc.string() }),
      fc.record({ all: fc.array(tie('param'), { maxLength: 3 }) }),
      tie('text'),
    ),
    text: fc.record({ say: fc.string(), with: fc.dictionary(fc.string(), tie('param'), { maxKeys: 3 }) }),
  })).param

  test('is plain data: what is kept as text is read as it was', () => {
    fc.assert(
      fc.property(fc.string(), fc.dictionary(fc.string(), param, { maxKeys: 3 }), (id, parameters) => {
        const made = reply('answer', say(id, parameters), { lines: [say(id)] })
        expect(JSON.stringify(Reply.parse(JSON.parse(JSON.stringify(made))))).toBe(JSON.stringify(made))
      }),
    )
  })

  test('is seen by the crew and has nothing in it unless it says so', () => {
    expect(reply('hold', say('x'))).toEqual({
      outcome: 'hold',
      title: { say: 'x' },
      lines: [],
      facts: [],
      working: [],
      choices: [],
      form: null,
      files: [],
      audience: 'crew',
      safety: { about: ['general'] },
    })
  })

  test.each([
    [
      'more choices than a messenger shows',
      { choices: Array(26).fill({ label: say('x'), to: { step: 'x' } }) },
    ],
    ['a form of more than five fields', { form: { fields: Array(6).fill({}) } }],
    ['words that are not in the catalogue', { lines: ['just text'] }],
    ['anything that is not listed', { color: 'red' }],
  ])('cannot hold %s', (_what, parts) => {
    expect(Reply.safeParse({ ...reply('answer', say('x')), ...parts }).success).toBe(false)
  })

  test('a sentence has no parameters but plain ones', () => {
    expect(Text.safeParse({ say: 'x', with: { n: null } }).success).toBe(false)
    expect(Text.safeParse({ say: 'x', with: { n: () => 1 } }).success).toBe(false)
  })

  test.each([
    ['two kinds at once', { value: '1', unit: 'gal', day: '2026-06-01' }],
    ['an amount without its unit', { value: '1' }],
    ['an amount that is no text', { value: 1, unit: 'gal' }],
    ['a moment without its zone', { atMs: 1, style: 'date' }],
    ['a moment in a style nobody knows', { atMs: 1, zone: 'UTC', style: 'year' }],
    ['a list of something else', { all: [null] }],
    ['a list joined in a way nobody knows', { all: [], join: 'nor' }],
    ['a sentence with more than a sentence has', { say: 'x', loud: true }],
    ['a list in place of parameters', { say: 'x', with: [] }],
    ['no number', Number.NaN],
    ['a number without end', Number.POSITIVE_INFINITY],
  ])('and none of them is %s', (_what, n) => {
    expect(Text.safeParse({ say: 'x', with: { n } }).success).toBe(false)
    expect(Text.safeParse({ say: 'x', with: { n: { all: ['1', n] } } }).success).toBe(false)
  })

  test.each([
    ['a list', [1, 'two', { three: [null, true] }], true],
    ['nothing', null, true],
    ['a function', { run: () => 1 }, false],
    ['a date', { on: new Date(0) }, false],
    ['what is not there', { on: undefined }, false],
    ['no number', [Number.NaN], false],
  ])('a press carries plain data: %s', (_what, value, isPlain) => {
    const made = reply('question', say('x'), {
      choices: [{ label: say('x'), to: { step: 'x', value: value as never } }],
    })
    expect(Reply.safeParse(made).success).toBe(isPlain)
  })
})

describe('fields that came back', () => {
  const file = { blob: 'b', name: 'n', type: 't', bytes: 1 }
  const fields = { name: '  Row 5 ', turfs: ['a', 'b'], photo: [file], empty: '' }

  test.each([
    ['name', 'Row 5', ['  Row 5 '], []],
    ['turfs', 'a, b', ['a', 'b'], []],
    ['photo', '', [], [file]],
    ['empty', '', [], []],
    ['not there', '', [], []],
  ])('%s as a text, as ticks and as files', (name, text, ticks, files) => {
    expect(textOf(fields, name)).toBe(text)
    expect(ticksOf(fields, name)).toEqual(ticks)
    expect(filesOf(fields, name)).toEqual(files)
  })

  test('fill the form again, but for its files', () => {
    const empty = (name: string, kind: 'text' | 'file' = 'text') => ({
      name,
      kind,
      label: say('x'),
      required: false,
    })
    const filled = refill([empty('name'), empty('empty'), empty('photo', 'file')], fields)
    expect(filled).toEqual([{ ...empty('name'), value: 'Row 5' }, empty('empty'), empty('photo', 'file')])
  })
})

describe('a question about an option', () => {
  test('carries what was said so far, and what each choice would set', () => {
    const { reply: asked, state } = askFor({ tank: '2 gal' }, say('which'), [
      { label: say('one'), set: { line: 'a' } },
      { label: say('two'), hint: say('hint'), set: { line: 'b' } },
    ])
    expect(state).toEqual({ tank: '2 gal' })
    expect(asked.outcome).toBe('question')
    expect(asked.choices).toEqual([
      { label: say('one'), to: { step: 'set', value: { line: 'a' } } },
      { label: say('two'), hint: say('hint'), to: { step: 'set', value: { line: 'b' } } },
    ])
  })

  test.each([
    [{ line: 'a' }, { tank: '2 gal', line: 'a' }],
    [{ tank: '3 gal' }, { tank: '3 gal' }],
    [{ tank: '' }, {}],
    [{ tank: null }, {}],
    ['nonsense', { tank: '2 gal' }],
    [null, { tank: '2 gal' }],
  ])('a choice of %j leaves %j', (added, left) => {
    expect(withSet({ tank: '2 gal' }, added)).toEqual(left)
  })
})
