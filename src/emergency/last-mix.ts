import { z } from 'zod'
import type { Tools } from '#src/desk/command.ts'
import type { BookEntry } from '#src/store/labels.ts'
import type { Site } from '#src/store/sites.ts'

const Asked = z.object({ options: z.record(z.string(), z.unknown()).optional() })
/** So many of their newest answers are looked through: the walk of a day through the key, and the mix before it. */
const LOOKED_AT = 300

/** The product that this person mixed last, and the site they mixed for. */
export async function lastMix({
  store,
  person,
}: Tools): Promise<{ readonly product: BookEntry | null; readonly site: Site | null }> {
  const answers = await store.turns.list({ personId: person.id, limit: LOOKED_AT })
  const turns = answers.filter(({ command }) => command === 'mix')
  const named = turns.flatMap(({ reply }) => reply.facts).find(({ name }) => name === 'product')?.value
  const siteName = turns
    .map(({ asked }) => Asked.safeParse(JSON.parse(asked)).data?.options?.site)
    .find((site) => typeof site === 'string')
  const product = typeof named === 'string' ? await store.labels.findByName(named) : undefined
  const sites = typeof siteName === 'string' ? await store.sites.list() : []
  return {
    product: product ?? null,
    site: sites.find(({ name }) => name.toLowerCase() === String(siteName).toLowerCase()) ?? null,
  }
}
