import { z } from 'zod'
import { truckCard } from '#src/card/truck-card.ts'
import { again } from '#src/desk/again.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'

const options = z.strictObject({
  sprayer: z.string().min(1).max(80).meta({ suggest: 'sprayers' }),
  for: z.string().min(1).max(80).optional().meta({ suggest: 'people' }),
  product: z.string().min(1).max(80).optional().meta({ suggest: 'products' }),
})
type Options = z.infer<typeof options>

/** A card for the truck, to print: each product at half a tank, one gallon and a full tank, at one person's output. */
export default defineCommand({
  name: 'card',
  may: 'crew',
  slow: true,
  options,
  state: options,
  start: draw,
  next: again(options, draw),
})

async function draw(given: Options, tools: Tools): Promise<Answer> {
  const { store } = tools
  const sprayer = pick(given, 'sprayer', given.sprayer, await store.sprayers.list())
  if (!sprayer.ok) return sprayer.ask
  const person =
    given.for === undefined
      ? ({ ok: true, value: tools.person } as const)
      : pick(given, 'for', given.for, await store.people.list())
  if (!person.ok) return person.ask
  const book = await store.labels.list()
  if (given.product === undefined)
    return truckCard({ sprayer: sprayer.value, person: person.value, book }, tools)
  const product = pick(given, 'product', given.product, book)
  return product.ok
    ? truckCard({ sprayer: sprayer.value, person: person.value, book: [product.value] }, tools)
    : product.ask
}
