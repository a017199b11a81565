import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import type { Found } from '#src/mixing/resolve.ts'
import { pick } from '#src/mixing/resolve.ts'
import { readDay } from '#src/site/read-day.ts'
import type { KeptFilter } from './kept-filter.ts'

const name = (suggest: string) => z.string().min(1).max(80).optional().meta({ suggest })
const day = z.string().min(1).max(40).optional()

/** By what records are found; every option narrows. */
export const filterOptions = {
  site: name('sites'),
  product: name('products'),
  person: name('people'),
  from: day,
  to: day,
  complete: z.boolean().optional(),
}

const Given = z.object(filterOptions)
type Given = z.infer<typeof Given>

/** What was typed, as a filter; else the question or the refusal that it asks for. */
export async function filterOf(given: Given, tools: Tools): Promise<Found<KeptFilter>> {
  const { store, today } = tools
  const days = [given.from, given.to].map((text) => (text === undefined ? undefined : readDay(text, today)))
  const unread = days.indexOf(null)
  if (unread >= 0) return refused(say('records.day', { text: (unread === 0 ? given.from : given.to) ?? '' }))
  const [from, to] = days
  if (from && to && from > to)
    return refused(say('records.days-turned', { from: { day: from }, to: { day: to } }))
  const site = given.site === undefined ? null : pick(given, 'site', given.site, await store.sites.listEver())
  if (site !== null && !site.ok) return site
  const products = given.product === undefined ? [] : await store.records.productNames()
  const product =
    given.product === undefined
      ? null
      : pick(
          given,
          'product',
          given.product,
          products.map((one) => ({ name: one })),
        )
  if (product !== null && !product.ok) return product
  const person =
    given.person === undefined ? null : pick(given, 'person', given.person, await store.people.list())
  if (person !== null && !person.ok) return person
  return {
    ok: true,
    value: {
      ...(site === null ? {} : { siteId: site.value.id }),
      ...(product === null ? {} : { product: product.value.name }),
      ...(person === null ? {} : { personId: person.value.id }),
      ...(from ? { from } : {}),
      ...(to ? { to } : {}),
      ...(given.complete === undefined ? {} : { complete: given.complete }),
    },
  }
}

function refused(title: ReturnType<typeof say>): Found<never> {
  return { ok: false, ask: { reply: reply('refusal', title, { audience: 'person' }) } }
}
