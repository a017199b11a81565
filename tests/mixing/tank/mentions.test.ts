import { describe, expect, test } from 'vitest'
import { orderTank } from '#src/calculator/order/order-tank.ts'
import { loadOrderTables } from '#src/calculator/order/table.ts'
import { codeOfAdjuvant, pairsOf } from '#src/mixing/tank/mentions.ts'
import { readData } from '#src/project.ts'
import { entry } from '../../label/build.ts'

const items = [
  { id: 'product-1', name: 'Invented 75 WDG', code: 'WDG' },
  { id: 'product-2', name: 'Madeup 4 EC', code: 'EC' },
  { id: 'with-surfactant', name: 'nonionic surfactant', code: 'NIS' },
] as const

const idsOf = (mixingOrder: string[]) =>
  pairsOf(entry({ mixingOrder }), 'product-1', items).map(({ first, second }) => [
    'item' in first ? first.item : first.code,
    'item' in second ? second.item : second.code,
  ])

describe('pairs that a label orders by its own steps', () => {
  test('names, codes and what labels call them', () => {
    expect(
      idsOf(['Half the water', 'Add the emulsifiable concentrate', 'Add this product', 'Surfactant last']),
    ).toEqual([
      ['product-2', 'product-1'],
      ['product-2', 'with-surfactant'],
      ['product-1', 'with-surfactant'],
    ])
  })

  test('steps that name nothing of this tank order nothing', () => {
    expect(idsOf(['Half fill the tank', 'Stir until no lumps are left', 'Fill to the mark'])).toEqual([])
  })

  test('the first mention decides: stirring it in again orders nothing', () => {
    expect(idsOf(['Add this product', 'Add Madeup 4 EC', 'Stir the product in'])).toEqual([
      ['product-1', 'product-2'],
    ])
  })

  test('they beat the published order, and it is said', () => {
    const pairs = pairsOf(
      entry({ mixingOrder: ['Madeup 4 EC first', 'then this product'] }),
      'product-1',
      items,
    )
    const order = orderTank(items, pairs, loadOrderTables(readData))
    if (!order.ok) throw new Error('no order')
    expect(order.value.items.map(({ item }) => item.name)).toEqual([
      'Madeup 4 EC',
      'Invented 75 WDG',
      'nonionic surfactant',
    ])
    expect(order.value.items[0]?.movedBy).toEqual(['Invented 75 WDG'])
  })

  test('two labels that contradict each other are told', () => {
    const pairs = [
      ...pairsOf(entry({ mixingOrder: ['Madeup 4 EC', 'this product'] }), 'product-1', items),
      ...pairsOf(
        entry({ name: 'Madeup 4 EC', mixingOrder: ['Invented 75 WDG', 'this product'] }),
        'product-2',
        items,
      ),
    ]
    const order = orderTank(items, pairs, loadOrderTables(readData))
    expect(order.ok ? [] : order.problems.map(({ id }) => id)).toEqual(['order.contradiction'])
  })
})

test.each([
  ['nonionic surfactant', 'NIS'],
  ['methylated seed oil', 'MSO'],
  ['crop oil concentrate', 'COC'],
  ['ammonium sulfate', 'ammonium sulfate'],
  ['drift control agent', 'drift agent'],
  ['adjuvant', null],
])('an adjuvant called %s is %s', (kind, code) => {
  expect(codeOfAdjuvant(kind)).toBe(code)
})
