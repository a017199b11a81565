import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Event, type Tools } from '#src/desk/command.ts'
import { pickSite } from '#src/mixing/resolve.ts'
import { areaForm, areaValues, readAreaForm } from '#src/site/area-form.ts'
import { siteCard } from '#src/site/site-card.ts'
import type { Area, Site } from '#src/store/sites.ts'

const options = z.strictObject({
  site: z.string().min(1).max(80).meta({ suggest: 'sites' }),
  area: z.string().min(1).max(60).optional().meta({ suggest: 'areas' }),
})
type Options = z.infer<typeof options>

/** Adds an area to a property, or changes one: size, grasses, use, seeding. */
export default defineCommand({
  name: 'site area',
  may: 'lead',
  options,
  state: options,
  async start(given, tools) {
    const found = await find(given, tools)
    return found.ok ? ask(given, found.site, found.area) : found.ask
  },
  async next(given, event, tools) {
    const chosen = options.parse({ ...given, ...(event.kind === 'press' ? (event.value as object) : {}) })
    const found = await find(chosen, tools)
    if (!found.ok) return found.ask
    return event.kind === 'submit' ? keep(chosen, found, event, tools) : ask(chosen, found.site, found.area)
  },
})

type FoundPlace =
  | { readonly ok: true; readonly site: Site; readonly area: Area | null }
  | { readonly ok: false; readonly ask: Answer }

/** An area that is not there yet is a new one. */
async function find(given: Options, { store }: Tools): Promise<FoundPlace> {
  const site = await pickSite(given, given.site, { store })
  if (!site.ok) return site
  const areas = await store.sites.listAreas(site.value.id)
  const area = areas.find(({ name }) => name.toLowerCase() === given.area?.toLowerCase())
  return { ok: true, site: site.value, area: area ?? null }
}

function ask(given: Options, site: Site, area: Area | null): Answer {
  const values = area === null ? { name: given.area ?? '' } : areaValues(area)
  return {
    reply: reply('question', say(area === null ? 'site.area.new' : 'site.area.change', { site: site.name }), {
      form: areaForm(values),
      audience: 'person',
      safety: { about: ['records'] },
    }),
    state: given,
  }
}

async function keep(
  given: Options,
  { site, area }: { readonly site: Site; readonly area: Area | null },
  event: Event & { readonly kind: 'submit' },
  tools: Tools,
): Promise<Answer> {
  const { store, nowMs, today, locale } = tools
  const others = (await store.sites.listAreas(site.id)).filter(({ id }) => id !== area?.id)
  const taken = new Set(others.map(({ name }) => name.toLowerCase()))
  const read = readAreaForm(event.fields, taken, { locale: locale.startsWith('es') ? 'es' : 'en', today })
  if (!read.ok)
    return {
      reply: reply('question', say('common.not-yet'), {
        lines: [...read.problems],
        form: { ...areaForm(event.fields), open: say('common.correct-it') },
        audience: 'person',
      }),
      state: given,
    }
  const { name, squareFeet, details } = read.draft
  if (area === null) await store.sites.createArea({ siteId: site.id, name, squareFeet, details }, nowMs)
  else
    await store.sites.updateArea(area.id, {
      name,
      squareFeet,
      details: { ...area.details, turfs: details.turfs, use: details.use, seededOn: details.seededOn },
    })
  await tools.namesChanged()
  return { reply: await siteCard(tools, site.id, say('site.area.done', { name, site: site.name })) }
}
