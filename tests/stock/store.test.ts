import { expect, test } from 'vitest'
import type { Amount } from '#src/record/product.ts'
import { NOON_MS } from '#tests/helpers/asks.ts'
import { eachEngine } from '#tests/helpers/engines.ts'
import { aPerson, inStore } from '#tests/helpers/rows.ts'

const ounces = (value: string): Amount => ({ value, unit: 'oz wt' })
const used = (value: string, product = 'Invented') => ({ product, amount: ounces(value), atMs: NOON_MS })

eachEngine('stock', (place) => {
  test('a record used what its newest version says, however often that is written', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const write = (version: number, values: readonly string[]) =>
        store.stock.use(
          { number: 7, version, personId },
          values.map((value) => used(value)),
          NOON_MS,
        )
      const left = async () => (await store.stock.list()).map(({ amount }) => amount.value)
      await write(1, ['2', '3'])
      await write(1, ['2', '3'])
      expect(await left()).toEqual(['2', '3'])
      await write(2, ['4'])
      await write(1, ['2', '3'])
      await write(2, ['4'])
      expect(await left()).toEqual(['4'])
      await write(3, [])
      await write(2, ['4'])
      expect(await left()).toEqual([])
    })
  })

  test('one product is listed alone, the earliest first', async () => {
    await inStore(place, async ({ store }) => {
      const { id: personId } = await aPerson(store)
      const add = (product: string, atMs: number, lot: string) =>
        store.stock.add({ personId, product, kind: 'in', amount: ounces('1'), atMs, lot }, NOON_MS)
      await add('one', 2, 'b')
      await add('two', 1, 'x')
      await add('one', 1, 'a')
      expect((await store.stock.list('one')).map(({ lot }) => lot)).toEqual(['a', 'b'])
      expect((await store.stock.list()).length).toBe(3)
    })
  })
})
