import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'

const SHOWN = 40

/** Every property of the crew, with its size. */
export default defineCommand({
  name: 'site list',
  may: 'crew',
  options: z.strictObject({}),
  async start(_options, { store }) {
    const sites = await store.sites.list()
    const areas = await store.sites.allAreas()
    return {
      reply: reply('answer', say('site.list.title', { count: sites.length }), {
        lines: sites.slice(0, SHOWN).map((site) => {
          const own = areas.filter(({ siteId }) => siteId === site.id)
          const total = own.reduce((sum, { squareFeet }) => sum + Number(squareFeet), 0)
          return say('site.list.line', {
            name: site.name,
            areas: own.length,
            size: { value: String(total), unit: 'ft2' },
          })
        }),
        audience: 'person',
        safety: { about: ['bystanders'] },
      }),
    }
  },
})
