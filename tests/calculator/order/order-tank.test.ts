import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { LabelPair, TankItem } from '#src/calculator/order/item.ts'
import { spellOut } from '#src/calculator/order/item.ts'
import { orderTank, sayDoing } from '#src/calculator/order/order-tank.ts'
import { Code, loadOrderTables, OrderTable, placeIn, tableNames } from '#src/calculator/order/table.ts'
import { strictest } from '#src/calculator/worked.ts'
import { readData } from '#src/project.ts'
import { idsOf, resultOf, spoken, spokenAll } from '../sayable.ts'

const tables = loadOrderTables(readData)
const table = (id: string) => {
  const found = tables.filter((one) => one.id === id)
  return [...found, ...tables.filter((one) => one.id !== id)]
}
const item = (id: string, code: Code): TankItem => ({ id, name: id, code })
const pair = (first: string, second: string, by = first): LabelPair => ({
  first: { item: first },
  second: { item: second },
  by,
})
const orderOf = (items: TankItem[], pairs: LabelPair[] = [], from = tables) =>
  resultOf(orderTank(items, pairs, from)).items.map((one) => one.item.id)

const six = [
  item('oil', 'MSO'),
  item('weed ec', 'EC'),
  item('weed sl', 'SL'),
  item('flow', 'SC'),
  item('powder', 'WDG'),
  item('sulfate', 'ammonium sulfate'),
]

describe('published orders', () => {
  test('are five, each with its source, no code in two steps', () => {
    expect(tables.map((one) => one.id)).toEqual([...tableNames])
    const [first] = tables
    const twice = { ...first, steps: first?.steps.map((one) => ({ ...one, named: ['WP'] })) }
    expect(OrderTable.safeParse(twice).success).toBe(false)
  })

  test('agree on dry before suspension before emulsion before surfactant where they place them', () => {
    for (const one of tables) {
      const places = (['WP', 'SC', 'EC', 'NIS'] as const)
        .map((code) => placeIn(one, code))
        .filter((p) => p !== null)
      expect(places, one.id).toEqual([...places].sort((a, b) => a - b))
    }
  })

  test.each([
    ['oklahoma-state', ['sulfate', 'powder', 'flow', 'weed sl', 'weed ec', 'oil']],
    ['north-dakota-state', ['sulfate', 'powder', 'flow', 'oil', 'weed ec', 'weed sl']],
    ['south-dakota-state', ['sulfate', 'powder', 'flow', 'weed sl', 'weed ec', 'oil']],
  ])('%s orders a tank of six', (id, order) => {
    expect(orderOf(six, [], table(id))).toEqual(order)
  })

  test('every instruction has its sentence', () => {
    const doings = tables.flatMap(({ steps, last }) => [...steps.flatMap((one) => one.after), ...last])
    expect(new Set(doings.map((one) => spoken(sayDoing(one)))).size).toBe(new Set(doings).size)
  })

  test('what is done after a step comes once, after its last item', () => {
    const items = [item('a', 'WP'), item('b', 'WDG'), item('c', 'SC')]
    const after = resultOf(orderTank(items, [], tables)).items.map((one) => one.after)
    expect(after).toEqual([[], ['slurry-first', 'agitate'], []])
  })
})

describe('sources that differ', () => {
  test('are named, both sides', () => {
    const result = orderTank([item('ec', 'EC'), item('sl', 'SL')], [], tables)
    expect(idsOf(result)).toEqual(['order.sources-differ'])
    expect(spokenAll(result).at(-1)).toBe(
      'Sources differ: ec before sl says North Dakota State, W-A-L-E-S, and Utah State; ' +
        'the other way round says Oklahoma State and South Dakota State',
    )
  })

  test('are not spoken of when a label decides', () => {
    const decided = orderTank([item('ec', 'EC'), item('sl', 'SL')], [pair('ec', 'sl')], tables)
    expect(idsOf(decided)).not.toContain('order.sources-differ')
  })
})

describe('labels', () => {
  test('override any pair', () => {
    const items = [item('powder', 'WP'), item('flow', 'SC')]
    expect(orderOf(items)).toEqual(['powder', 'flow'])
    const result = orderTank(items, [pair('flow', 'powder')], tables)
    expect(resultOf(result).items.map((one) => [one.item.id, one.movedBy])).toEqual([
      ['flow', ['flow']],
      ['powder', ['flow']],
    ])
  })

  test('may speak of a whole formulation', () => {
    const rule: LabelPair = { first: { code: 'EC' }, second: { item: 'powder' }, by: 'powder' }
    expect(orderOf([item('powder', 'WP'), item('e1', 'EC'), item('e2', 'EC')], [rule])).toEqual([
      'e1',
      'e2',
      'powder',
    ])
    expect(orderOf([item('powder', 'WP'), item('flow', 'SC')], [rule])).toEqual(['powder', 'flow'])
  })

  test('push others aside, which is told', () => {
    const items = [item('a powder', 'WP'), item('b flow', 'SC'), item('c ec', 'EC')]
    const result = orderTank(items, [pair('c ec', 'a powder')], tables)
    expect(resultOf(result).items.map((one) => one.item.id)).toEqual(['b flow', 'c ec', 'a powder'])
    expect(idsOf(result)).toEqual(['order.pushed-aside'])
  })

  test('that contradict each other are reported with every one of them', () => {
    const items = [item('a', 'WP'), item('b', 'SC'), item('c', 'EC'), item('d', 'SL')]
    const result = orderTank(items, [pair('a', 'b'), pair('b', 'c'), pair('c', 'a'), pair('a', 'd')], tables)
    expect(idsOf(result)).toEqual(['order.contradiction'])
    expect(strictest(result.ok ? [] : result.problems)).toBe('refusal')
    expect(spokenAll(result)[0]).toMatch(/: (. before . \(label of .\)(, and |, |$)){3}$/)
  })
})

describe('what a table does not know', () => {
  test('is placed by the next table that does, and said', () => {
    const result = orderTank([item('sp', 'SP'), item('ec', 'EC'), item('powder', 'WP')], [], tables)
    expect(resultOf(result).items.map((one) => [one.item.id, one.source.short])).toEqual([
      ['sp', 'North Dakota State'],
      ['powder', 'Oklahoma State'],
      ['ec', 'Oklahoma State'],
    ])
    expect(idsOf(result)).toContain('order.from-other-source')
  })

  test('is asked for when no table places it', () => {
    const [oklahoma] = tables
    const result = orderTank([item('sp', 'SP')], [], oklahoma === undefined ? [] : [oklahoma])
    expect(idsOf(result)).toEqual(['order.no-place'])
  })

  test('a granule is no part of a tank', () => {
    expect(idsOf(orderTank([item('g', 'G')], [], tables))).toEqual(['order.granule'])
  })
})

const code = fc.constantFrom(...Code.options.filter((one) => one !== 'G' && placeSomewhere(one)))
function placeSomewhere(one: Code): boolean {
  return tables.some((source) => placeIn(source, one) !== null)
}
const tank = fc.uniqueArray(fc.tuple(fc.string({ minLength: 1, maxLength: 4 }), code), {
  selector: ([id]) => id,
  minLength: 1,
  maxLength: 8,
})

describe('the order of any tank', () => {
  test('is total, keeps every label pair, or says that the labels contradict each other', () => {
    fc.assert(
      fc.property(tank, fc.array(fc.tuple(fc.nat(7), fc.nat(7)), { maxLength: 8 }), (rows, numbers) => {
        const items = rows.map(([id, one]) => item(id, one))
        const pairs = numbers.flatMap(([a, b]) => {
          const [first, second] = [items[a], items[b]]
          return first && second && first !== second ? [pair(first.id, second.id)] : []
        })
        const result = orderTank(items, pairs, tables)
        if (!result.ok) {
          expect(result.problems.map((one) => one.id)).toEqual(['order.contradiction'])
          expect(hasCircle(pairs, items)).toBe(true)
          return
        }
        const ids = result.value.items.map((one) => one.item.id)
        expect([...ids].sort()).toEqual(items.map((one) => one.id).sort())
        for (const must of spellOut(pairs, items))
          expect(ids.indexOf(must.first)).toBeLessThan(ids.indexOf(must.second))
      }),
    )
  })

  test('does not depend on the order of typing', () => {
    fc.assert(
      fc.property(tank, (rows) => {
        const items = rows.map(([id, one]) => item(id, one))
        expect(orderOf([...items].reverse())).toEqual(orderOf(items))
      }),
    )
  })

  test('follows the chosen table wherever no label speaks', () => {
    fc.assert(
      fc.property(tank, (rows) => {
        const [main] = tables
        if (main === undefined) throw new Error('no table')
        const known = rows.map(([id, one]) => item(id, one)).filter((one) => placeIn(main, one.code) !== null)
        fc.pre(known.length > 0)
        const places = resultOf(orderTank(known, [], tables)).items.map(
          (one) => placeIn(main, one.item.code) ?? -1,
        )
        expect(places).toEqual([...places].sort((a, b) => a - b))
      }),
    )
  })
})

/** Can one walk from some item back to itself? Found by taking away whatever nothing goes before. */
function hasCircle(pairs: readonly LabelPair[], items: readonly TankItem[]): boolean {
  let musts = spellOut(pairs, items)
  for (;;) {
    const kept = musts.filter((must) => musts.some((other) => other.second === must.first))
    if (kept.length === musts.length) return musts.length > 0
    musts = kept
  }
}
