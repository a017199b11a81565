import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { stockCard, writeDown } from '#src/stock/enter.ts'

const options = z.strictObject({
  product: z.string().min(1).max(80).meta({ suggest: 'products' }),
  amount: z.string().min(1).max(60),
})
type Options = z.infer<typeof options>

/** Below this amount the leads are told, once; zero for never. */
export default defineCommand({
  name: 'stock low',
  may: 'lead',
  options,
  state: options,
  start: mark,
  next: again(options, mark),
})

async function mark(given: Options, tools: Tools): Promise<Answer> {
  const isOff = /^(0|off|no|never|nunca)$/i.test(given.amount.trim())
  const read = await writeDown('low', isOff ? { ...given, amount: '0 oz' } : given, tools)
  if (!read.ok) return read.ask
  const { entry, amount } = read
  const title = isOff
    ? say('stock.unmarked', { product: entry.name })
    : say('stock.marked', { product: entry.name, amount })
  return stockCard(title, entry.name, tools)
}
