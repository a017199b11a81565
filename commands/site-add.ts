import { z } from 'zod'
import { StoredFile } from '#src/conversation/ask.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand, type Event, type Tools } from '#src/desk/command.ts'
import { areaForm, readAreaForm } from '#src/site/area-form.ts'
import { siteCard } from '#src/site/site-card.ts'
import { readSiteForm, siteForm } from '#src/site/site-form.ts'
import { SiteDetails } from '#src/store/sites.ts'

const Draft = z.strictObject({
  name: z.string(),
  address: z.string(),
  customer: z.string(),
  mind: z.string(),
  photo: StoredFile.nullable(),
})

/** Adds a client's property in two short steps: where it is, then its first area. */
export default defineCommand({
  name: 'site add',
  may: 'lead',
  options: z.strictObject({
    name: z.string().min(1).max(60).optional(),
    address: z.string().min(1).max(200).optional(),
    photo: StoredFile.optional().meta({ file: true }),
  }),
  state: z.strictObject({ photo: StoredFile.nullable(), draft: Draft.nullable() }),

  async start({ name, address, photo }, _tools) {
    const values = { ...(name === undefined ? {} : { name }), ...(address === undefined ? {} : { address }) }
    return {
      reply: reply('question', say('site.add.first'), { form: siteForm(values), audience: 'person' }),
      state: { photo: photo ?? null, draft: null },
    }
  },

  async next(state, event, tools) {
    return event.step === 'area' && state.draft !== null
      ? addArea(state, state.draft, event, tools)
      : addSite(state, event, tools)
  },
})

type State = { photo: z.infer<typeof StoredFile> | null; draft: z.infer<typeof Draft> | null }

const namesTaken = async ({ store }: Tools): Promise<ReadonlySet<string>> =>
  new Set((await store.sites.list()).map((site) => site.name.toLowerCase()))

async function addSite(state: State, event: Event, tools: Tools) {
  const fields = event.kind === 'submit' ? event.fields : {}
  const taken = await namesTaken(tools)
  const read = readSiteForm(fields, taken)
  if (!read.ok)
    return {
      reply: reply('question', say('common.not-yet'), {
        lines: [...read.problems],
        form: { ...siteForm({}, fields), open: say('common.correct-it') },
        audience: 'person' as const,
      }),
      state,
    }
  return {
    reply: reply('question', say('site.add.second', { name: read.draft.name }), {
      form: areaForm(),
      audience: 'person' as const,
    }),
    state: { ...state, draft: read.draft },
  }
}

async function addArea(state: State, draft: z.infer<typeof Draft>, event: Event, tools: Tools) {
  const { store, nowMs } = tools
  const fields = event.kind === 'submit' ? event.fields : {}
  // Somebody else may have taken the name since the first step.
  if ((await namesTaken(tools)).has(draft.name.toLowerCase()))
    return {
      reply: reply('question', say('common.not-yet'), {
        lines: [say('site.problem.name-taken', { name: draft.name })],
        form: { ...siteForm(draft), open: say('common.correct-it') },
        audience: 'person' as const,
      }),
      state: { photo: draft.photo ?? state.photo, draft: null },
    }
  const read = readAreaForm(fields, new Set(), {
    locale: tools.locale.startsWith('es') ? 'es' : 'en',
    today: tools.today,
  })
  if (!read.ok)
    return {
      reply: reply('question', say('common.not-yet'), {
        lines: [...read.problems],
        form: { ...areaForm(fields), open: say('common.correct-it') },
        audience: 'person' as const,
      }),
      state,
    }
  const details = SiteDetails.parse({ customer: draft.customer, notes: draft.mind })
  const siteId = await store.sites.create({ name: draft.name, address: draft.address, details }, nowMs)
  await store.sites.createArea({ siteId, ...read.draft }, nowMs)
  const photo = draft.photo ?? state.photo
  if (photo !== null) await store.files.attach(photo, 'site', siteId, nowMs)
  await tools.namesChanged()
  return { reply: await siteCard(tools, siteId, say('site.add.done', { name: draft.name })) }
}
