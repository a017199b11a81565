import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { momentIn } from '#src/desk/clock.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { readDay } from '#src/site/read-day.ts'
import { readStock, refused, stockCard } from '#src/stock/enter.ts'

const options = z.strictObject({
  product: z.string().min(1).max(80).meta({ suggest: 'products' }),
  amount: z.string().min(1).max(60),
  packs: z.int().min(1).max(1000).optional(),
  day: z.string().min(1).max(40).optional(),
  lot: z.string().min(1).max(60).optional(),
})
type Options = z.infer<typeof options>

/** Writes down what came in: how much in each pack, how many packs, when, and the lot on them. */
export default defineCommand({
  name: 'stock add',
  may: 'crew',
  options,
  state: options,
  start: cameIn,
  next: again(options, cameIn),
})

async function cameIn(given: Options, tools: Tools): Promise<Answer> {
  const { store, person, crew, nowMs, today } = tools
  const read = await readStock(given, tools)
  if (!read.ok) return read.ask
  const day = given.day === undefined ? today : readDay(given.day, today)
  if (day === null) return refused([say('answers.day', { text: given.day ?? '' })]).ask
  if (day > today) return refused([say('stock.future', { day: { day } })]).ask
  // An earlier day counts from its beginning, so that a count on that day has it in.
  const atMs = day === today ? nowMs : momentIn(crew.zone, day, '00:00')
  const { entry, amount } = read
  await store.stock.add(
    { personId: person.id, product: entry.name, kind: 'in', amount, atMs, lot: given.lot ?? null },
    nowMs,
  )
  return stockCard(say('stock.added', { product: entry.name, amount }), entry.name, tools)
}
