import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { allOnHand, onHandOf } from '#src/stock/book.ts'
import { stockCard } from '#src/stock/enter.ts'
import { sayMovement, sayOnHand } from '#src/stock/words.ts'

const options = z.strictObject({
  product: z.string().min(1).max(80).optional().meta({ suggest: 'products' }),
})
type Options = z.infer<typeof options>

/** So many lines fit on a phone. */
const SHOWN = 20
const LATEST = 6

/** What is there of each product: what came in and was counted, less what records used. */
export default defineCommand({
  name: 'stock show',
  alone: true,
  may: 'crew',
  options,
  state: options,
  start: show,
  next: again(options, show),
})

async function show({ product }: Options, tools: Tools): Promise<Answer> {
  if (product !== undefined) return showOne(product, tools)
  const all = await allOnHand(tools.store)
  const worst = all.filter(({ isLow, isOver }) => isLow || isOver)
  const sorted = [...worst, ...all.filter((one) => !worst.includes(one))]
  return {
    reply: reply(
      worst.length > 0 ? 'heads-up' : 'answer',
      worst.length > 0
        ? say('stock.title-low', { count: all.length, low: worst.length })
        : say('stock.title', { count: all.length }),
      {
        lines: [
          ...sorted.slice(0, SHOWN).map(sayOnHand),
          ...(all.length > SHOWN ? [say('stock.more', { count: all.length - SHOWN })] : []),
          ...(all.length === 0 ? [say('stock.how')] : []),
        ],
        facts: [
          { name: 'products', value: all.length },
          { name: 'low', value: worst.length },
        ],
        audience: 'person',
        safety: { about: ['records'] },
      },
    ),
  }
}

async function showOne(typed: string, tools: Tools): Promise<Answer> {
  const { store, crew } = tools
  const known = await store.stock.products()
  const wanted = typed.trim().toLowerCase()
  const product = known.find((one) => one.toLowerCase() === wanted) ?? typed.trim()
  const there = await onHandOf(product, store)
  const card = await stockCard(say('stock.one', { product }), product, tools)
  const latest = await store.stock.latest(product, LATEST)
  if (latest.length === 0)
    return {
      reply: reply('question', say('stock.none', { product }), {
        lines: [say('stock.how')],
        audience: 'person',
      }),
    }
  const counted = there.counted
  return {
    reply: {
      ...card.reply,
      lines: [
        ...card.reply.lines,
        ...(counted === null ? [say('stock.never-counted')] : []),
        ...latest.map((movement) => sayMovement(movement, crew.zone)),
      ],
    },
  }
}
