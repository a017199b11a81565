import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { again, readStock, stockCard } from '#src/stock/enter.ts'
import { tellWhenLow } from '#src/stock/move-stock.ts'

const options = z.strictObject({
  product: z.string().min(1).max(80).meta({ suggest: 'products' }),
  amount: z.string().min(1).max(60),
  packs: z.int().min(1).max(1000).optional(),
})
type Options = z.infer<typeof options>

/** Somebody has counted: so much is there now, whatever was reckoned before. */
export default defineCommand({
  name: 'stock count',
  may: 'crew',
  options,
  state: options,
  start: count,
  next: again(options, count),
})

async function count(given: Options, tools: Tools): Promise<Answer> {
  const { store, person, nowMs } = tools
  const read = await readStock(given, tools)
  if (!read.ok) return read.ask
  const { entry, amount } = read
  const movement = { personId: person.id, product: entry.name, kind: 'count', amount, lot: null } as const
  await store.stock.add({ ...movement, atMs: nowMs }, nowMs)
  await tellWhenLow(entry.name, tools)
  return stockCard(say('stock.counted', { product: entry.name, amount }), entry.name, tools)
}
