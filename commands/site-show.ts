import { z } from 'zod'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { pickSite } from '#src/mixing/resolve.ts'
import { siteCard } from '#src/site/site-card.ts'

/** One property on one screen: grass by area, what to mind, last treatment, what is left of the year. */
export default defineCommand({
  name: 'site show',
  may: 'crew',
  options: z.strictObject({
    site: z
      .string()
      .min(1)
      .max(80)
      .meta({ suggest: 'sites', aliases: ['name'] }),
  }),
  state: z.object({ site: z.string() }),
  start: show,
  next: async (_given, event, tools) => show(z.object({ site: z.string() }).parse(event.value), tools),
})

async function show({ site }: { site: string }, tools: Tools) {
  const found = await pickSite({ site }, site, tools)
  return found.ok ? { reply: await siteCard(tools, found.value.id) } : found.ask
}
