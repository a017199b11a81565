import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { amountIn, type Quantity } from '#src/quantity/quantity.ts'
import type { Amount } from '#src/record/product.ts'
import { onHand } from '#src/stock/on-hand.ts'
import type { StockMovement } from '#src/store/stock.ts'

let id = 0
const moved = (
  kind: StockMovement['kind'],
  atMs: number,
  value: string,
  unit: Amount['unit'],
): StockMovement => ({
  id: ++id,
  personId: 1,
  product: 'Invented',
  kind,
  amount: { value, unit },
  atMs,
  lot: null,
  recordNumber: kind === 'used' ? id : null,
  version: kind === 'used' ? 1 : null,
})
const said = ({ value, unit }: Quantity) => `${value} ${unit}`

describe('what is there', () => {
  test('is what came in less what was used, in the unit in which it came in', () => {
    // 2 × 2.5 gal less 64 fl oz are 4.5 gal: 128 fl oz to the gallon
    const movements = [moved('in', 1, '5', 'gal'), moved('used', 2, '64', 'fl oz')]
    expect(said(onHand('Invented', movements, 'liquid').amount)).toBe('4.5 gal')
  })

  test('begins anew with a count, whatever was reckoned before', () => {
    const movements = [
      moved('in', 1, '5', 'lb'),
      moved('used', 2, '1', 'lb'),
      moved('count', 3, '3', 'lb'),
      moved('used', 4, '8', 'oz wt'),
      moved('in', 5, '1', 'lb'),
    ]
    expect(said(onHand('Invented', movements, 'dry').amount)).toBe('3.5 lb')
  })

  test('has a job logged after a count and done before it already in it', () => {
    const movements = [moved('count', 10, '3', 'lb'), moved('used', 9, '1', 'lb')]
    expect(said(onHand('Invented', movements, 'dry').amount)).toBe('3 lb')
  })

  test('leaves a fluid ounce of a dry product out of the sum, and tells of it', () => {
    const movements = [moved('in', 1, '20', 'oz wt'), moved('used', 2, '3', 'fl oz')]
    const there = onHand('Invented', movements, 'dry')
    expect(said(there.amount)).toBe('20 oz wt')
    expect(there.unreckoned.map(({ amount }) => said(amount))).toEqual(['3 fl oz'])
  })

  test('below its mark is low, at it is not; a mark of nothing is none', () => {
    const low = (left: string, mark: string) =>
      onHand('Invented', [moved('count', 1, left, 'gal'), moved('low', 2, mark, 'fl oz')], 'liquid').isLow
    expect([low('0.99', '128'), low('1', '128'), low('0', '0')]).toEqual([true, false, false])
  })

  test('below nothing means that something was not written down', () => {
    expect(onHand('Invented', [moved('used', 1, '1', 'lb')], 'dry')).toMatchObject({
      isOver: true,
      amount: { value: '-1', unit: 'lb' },
    })
  })
})

const liquid = fc.constantFrom('gal' as const, 'qt' as const, 'fl oz' as const, 'mL' as const, 'L' as const)
const someMovement = fc.record({
  kind: fc.constantFrom('in' as const, 'count' as const, 'used' as const, 'low' as const),
  atMs: fc.integer({ min: 1, max: 1_000_000 }),
  value: fc.integer({ min: 0, max: 9999 }).map((n) => String(n / 8)),
  unit: liquid,
})
const many = fc.uniqueArray(someMovement, { maxLength: 25, selector: ({ atMs }) => atMs })

test('the last count and what came in after it, less what was used after it, in whatever order it was written', () => {
  fc.assert(
    fc.property(many, fc.func(fc.integer()), (steps, order) => {
      const written = steps.map(({ kind, atMs, value, unit }) => moved(kind, atMs, value, unit))
      const shuffled = written
        .map((one) => ({ one, at: order(one.atMs) }))
        .sort((a, b) => a.at - b.at)
        .map(({ one }, n) => ({ ...one, id: n + 1 }))
      const there = onHand('Invented', shuffled, 'liquid')
      expect(said(there.amount)).toBe(said(onHand('Invented', written, 'liquid').amount))

      const counts = written.filter(({ kind }) => kind === 'count')
      const last = counts.sort((a, b) => b.atMs - a.atMs)[0]
      const sign = { in: 1, used: -1, count: 0, low: 0 } as const
      const milliliters = written
        .filter(({ atMs }) => last === undefined || atMs > last.atMs)
        .reduce(
          (sum, { kind, amount }) => sum.plus(amountIn(amount, 'mL').times(sign[kind])),
          amountIn(last?.amount ?? { value: '0', unit: 'mL' }, 'mL'),
        )
      expect(amountIn(there.amount, 'mL').minus(milliliters).abs().lt('1e-30')).toBe(true)
    }),
  )
})
