import { z } from 'zod'
import { textOf } from '#src/conversation/fields.ts'
import { reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Event, type Tools } from '#src/desk/command.ts'
import { pick } from '#src/mixing/resolve.ts'
import { readSiteEdit, siteEditForm } from '#src/site/edit-form.ts'
import { siteCard } from '#src/site/site-card.ts'

const options = z.strictObject({
  site: z.string().min(1).max(80).meta({ suggest: 'sites' }),
  name: z.string().min(1).max(60).optional(),
  address: z.string().min(1).max(200).optional(),
  customer: z.string().min(1).max(60).optional(),
  mind: z.string().min(1).max(500).optional(),
  elevation: z.string().min(1).max(40).optional(),
})
type Given = z.infer<typeof options>

/** Changes what is noted of a property; with the site alone, by a form that is filled in with what stands. */
export default defineCommand({
  name: 'site edit',
  may: 'lead',
  options,
  state: options,
  start: edit,
  next: (given, event, tools) =>
    event.kind === 'submit'
      ? edit({ site: given.site, ...filledIn(event.fields) }, tools, true)
      : again(options, edit)(given, event, tools),
})

const CHANGED = ['name', 'address', 'customer', 'mind', 'elevation'] as const

/** A form says all of it: what was emptied there is no longer noted. */
const filledIn = (fields: Extract<Event, { kind: 'submit' }>['fields']) =>
  Object.fromEntries(CHANGED.map((name) => [name, textOf(fields, name)]))

async function edit(given: Given, tools: Tools, isWhole = false) {
  const sites = await tools.store.sites.list()
  const found = pick(given, 'site', given.site, sites)
  if (!found.ok) return found.ask
  const site = found.value
  if (!isWhole && CHANGED.every((name) => given[name] === undefined))
    return {
      reply: reply('question', say('site.edit.what', { name: site.name }), {
        form: siteEditForm(site),
        audience: 'person' as const,
        safety: { about: ['records'] },
      }),
      state: given,
    }
  const read = reader(tools.locale)
  const taken = new Set(sites.filter(({ id }) => id !== site.id).map(({ name }) => name.toLowerCase()))
  const change = readSiteEdit(given, site, { taken, read, units: tools.crew.settings.units })
  if (!change.ok)
    return {
      reply: reply('question', say('common.not-yet'), {
        lines: [...change.problems],
        form: { ...siteEditForm(site, given), open: say('common.correct-it') },
        audience: 'person' as const,
        safety: { about: ['records'] },
      }),
      // The form brings all the rest again.
      state: { site: given.site },
    }
  await tools.store.sites.update(site.id, change.value)
  await tools.namesChanged()
  return { reply: await siteCard(tools, site.id, say('site.edit.done', { name: change.value.name })) }
}
