import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { sumActives } from '#src/calculator/order/actives.ts'
import { jarSigns, judgeJar, scaleToJar } from '#src/calculator/order/jar.ts'
import { checkTogether } from '#src/calculator/order/together.ts'
import { strictest } from '#src/calculator/worked.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import { quantity } from '#src/quantity/quantity.ts'
import type { Output } from '#src/quantity/rate.ts'
import { areaRate } from '#src/quantity/rate.ts'
import { idsOf, resultOf, spoken } from '../sayable.ts'

const acre = { value: '1', unit: 'acre' } as const

describe('two labels', () => {
  test.each([
    ['both allow', ['B'], ['A'], undefined, 'answer', 0],
    ['one forbids', ['B'], undefined, ['A'], 'refusal', 1],
    ['one is silent', ['B'], undefined, undefined, 'hold', 1],
    ['both are silent', undefined, undefined, undefined, 'hold', 2],
    ['one lists others only', ['C'], ['A'], undefined, 'refusal', 1],
    ['one allows none', [], ['A'], undefined, 'refusal', 1],
  ] as const)('%s: %o', (_, aAllows, bAllows, bForbids, outcome, count) => {
    const a = { name: 'A', ...(aAllows && { allowed: aAllows }) }
    const b = { name: 'B', ...(bAllows && { allowed: bAllows }), ...(bForbids && { forbidden: bForbids }) }
    const found = checkTogether([a, b])
    expect(strictest(found)).toBe(outcome)
    expect(found.map(spoken)).toHaveLength(count)
  })

  test('that forbid each other are both named', () => {
    const rules = [
      { name: 'A', forbidden: ['b'], line: 'Do not mix with b' },
      { name: 'B', forbidden: ['A '] },
    ]
    expect(checkTogether(rules).map((one) => one.id)).toEqual(['order.forbidden', 'order.forbidden'])
  })

  test('one product alone has nothing to fear', () => {
    expect(checkTogether([{ name: 'A', allowed: [] }])).toEqual([])
  })
})

describe('the same active twice', () => {
  test('is added up in the unit of the first, whatever the second is told in', () => {
    const { totals, findings } = sumActives([
      { product: 'A', active: 'Demozine', rate: areaRate('0.5', 'lb', acre, 'ai') },
      {
        product: 'B',
        active: 'demozine',
        rate: areaRate('0.1', 'oz wt', { value: '1', unit: '1000 ft2' }, 'ai'),
      },
      { product: 'B', active: 'other', rate: areaRate('1', 'lb', acre, 'ai') },
    ])
    expect(totals.map((one) => [one.active, one.total.value])).toEqual([
      ['Demozine', '0.77225'],
      ['other', '1'],
    ])
    expect(findings.map(spoken)).toHaveLength(1)
  })

  test('ai and ae of one name are not the same figure', () => {
    const shares = (['ai', 'ae'] as const).map((of) => ({
      product: of,
      active: 'x',
      rate: areaRate('1', 'lb', acre, of),
    }))
    expect(sumActives(shares).totals).toHaveLength(2)
  })

  test('a volume of an active is a mistake in the code', () => {
    const rate = areaRate('1', 'pt', acre, 'ai')
    expect(() => sumActives([{ product: 'A', active: 'x', rate }])).toThrow(RangeError)
  })
})

describe('the jar', () => {
  const output: Output = { value: '25', unit: 'gal', per: acre }
  const items = [
    { name: 'liquid', rate: areaRate('1', 'pt', acre) },
    { name: 'dry', rate: areaRate('2', 'lb', acre) },
  ]

  test('keeps the ratio of the tank', () => {
    const { amounts, start } = resultOf(scaleToJar(items, output, quantity('1', 'qt')))
    expect(amounts.map((one) => one.amount)).toEqual([quantity('0.01', 'pt'), quantity('0.02', 'lb')])
    expect(start).toEqual(quantity('0.6', 'qt'))
  })

  test('amounts grow with the jar and add up over two jars', () => {
    const litersOf = fc.integer({ min: 1, max: 5000 })
    fc.assert(
      fc.property(litersOf, litersOf, (a, b) => {
        const [one, two, both] = [a, b, a + b].map((mL) => {
          return resultOf(scaleToJar(items, output, quantity(mL, 'mL'))).amounts[0]?.amount.value ?? '0'
        })
        expect(compareNumbers(big(one ?? 0).plus(two ?? 0), both ?? 0)).toBe(0)
      }),
    )
  })

  test('of nothing is refused', () => {
    expect(idsOf(scaleToJar(items, output, quantity('0', 'qt')))).toEqual(['order.jar-not-above-zero'])
  })

  test('that shows any sign is a hold, and a clean one is no proof', () => {
    expect(judgeJar([]).outcome).toBe('heads-up')
    for (const sign of jarSigns) expect(judgeJar([sign]).outcome).toBe('hold')
    expect(spoken(judgeJar(['clumps', 'foam']))).toBe(
      'Hold: clumps and foam in the jar. These do not go together',
    )
  })
})
