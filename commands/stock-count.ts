import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { stockCard, writeDown } from '#src/stock/enter.ts'
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
  const read = await writeDown('count', given, tools)
  if (!read.ok) return read.ask
  const { entry, amount } = read
  await tellWhenLow(entry.name, tools)
  return stockCard(say('stock.counted', { product: entry.name, amount }), entry.name, tools)
}
