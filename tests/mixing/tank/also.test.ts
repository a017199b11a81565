import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { reply, stepOf } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { readAlso, writeAlso } from '#src/mixing/tank/also.ts'
import { askedFor, givenFor } from '#src/mixing/tank/part.ts'

describe('more products as they are typed', () => {
  test.each([
    ['Product B', [{ product: 'Product B' }]],
    [
      'Product B; Product C @ 0.5 % v/v',
      [{ product: 'Product B' }, { product: 'Product C', rate: '0.5 % v/v' }],
    ],
    [
      'Product B #cool-spring @ 3 pt/acre',
      [{ product: 'Product B', line: 'cool-spring', rate: '3 pt/acre' }],
    ],
    [
      'Product B\nProduct C@2 lb/100 gal',
      [{ product: 'Product B' }, { product: 'Product C', rate: '2 lb/100 gal' }],
    ],
    [' ; Product B ;', [{ product: 'Product B' }]],
    ['', []],
  ])('%j', (text, all) => {
    expect(readAlso(text)).toEqual(all)
  })

  test('what is written is read back', () => {
    const name = fc.stringMatching(/^[A-Z][a-z]{2,8}( \d{1,2})?( [A-Z]{1,3})?$/)
    const line = fc.stringMatching(/^[a-z]{1,6}(-[a-z0-9]{1,5})?$/)
    const rate = fc.constantFrom('3 pt/acre', '0.5 % v/v', '2 lb/100 gal')
    const one = fc.record({ product: name, line, rate }, { requiredKeys: ['product'] })
    fc.assert(
      fc.property(fc.array(one, { maxLength: 4 }), (all) => {
        expect(readAlso(writeAlso(all))).toEqual(all)
      }),
    )
  })
})

describe('a question about one product', () => {
  const given = {
    product: 'A',
    also: 'B; C @ 1 pt/acre',
    tank: '2 gal',
    line: 'own',
    strength: '4 lb ai/gal',
  }

  test('is asked as if it were the only one, without the figures of the first', () => {
    expect(givenFor(given, 0)).toEqual({ product: 'A', tank: '2 gal', line: 'own', strength: '4 lb ai/gal' })
    expect(givenFor(given, 1)).toEqual({ product: 'B', tank: '2 gal' })
    expect(givenFor(given, 2)).toEqual({ product: 'C', rate: '1 pt/acre', tank: '2 gal' })
  })

  test('is answered where that product stands', () => {
    const to = (value: Record<string, string | boolean>) => ({ label: say('x'), to: { step: 'set', value } })
    const asked = askedFor(given, 1, {
      reply: reply('question', say('x'), {
        choices: [to({ rate: '3 pt/acre', line: 'spring' }), to({ product: 'Bee' }), to({ dormant: true })],
      }),
    })
    expect(asked.reply.choices.map((one) => stepOf(one)?.value)).toEqual([
      { also: 'B #spring @ 3 pt/acre; C @ 1 pt/acre' },
      { also: 'Bee; C @ 1 pt/acre' },
      { dormant: true },
    ])
    expect(asked.state).toEqual(given)
  })
})
