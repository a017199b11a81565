import { z } from 'zod'
import { field, refill, textOf } from '#src/conversation/fields.ts'
import { reply } from '#src/conversation/reply.ts'
import { asTyped, say } from '#src/conversation/text.ts'
import { type Command, defineCommand, type Tools } from '#src/desk/command.ts'
import { SiteDetails } from '#src/store/sites.ts'

/** Invented commands, each showing one thing that the desk promises. What they write is a site, so that it shows. */

const writeSite = ({ store, nowMs }: Tools, name: string) =>
  store.sites.create({ name, address: '', details: SiteDetails.parse({}) }, nowMs)

/** Reckons and writes nothing. */
const sum = defineCommand({
  name: 'sum',
  may: 'crew',
  options: z.strictObject({
    a: z.number(),
    b: z.number().meta({ aliases: ['plus'] }),
    how: z.enum(['fast', 'slow']).optional(),
    why: z.string().max(200).optional(),
  }),
  async start({ a, b }) {
    return { reply: reply('answer', asTyped(String(a + b)), { facts: [{ name: 'sum', value: a + b }] }) }
  },
})

/** Writes one site a run. */
const note = defineCommand({
  name: 'note',
  may: 'crew',
  options: z.strictObject({ text: z.string() }),
  async start({ text }, tools) {
    await writeSite(tools, text)
    return { reply: reply('answer', asTyped(text)) }
  },
})

/** Adds a tool to what the crew had a moment ago: a lost update would show. */
const equip = defineCommand({
  name: 'equip',
  may: 'crew',
  options: z.strictObject({ name: z.string() }),
  async start({ name }, { crew, updateCrew }) {
    const tool = { kind: 'spoon' as const, name, step: { value: '1', unit: 'tsp' } }
    await updateCrew({ settings: { ...crew.settings, tools: [...crew.settings.tools, tool] } })
    return { reply: reply('answer', asTyped(name)) }
  },
})

/**
 * Choices: 1 once, 2 again and again, 3 for leads, 4 for anybody, 5 is a step that breaks, 6 starts another command,
 * 7 starts one of leads.
 */
export const pick = defineCommand({
  name: 'pick',
  may: 'crew',
  options: z.strictObject({}),
  state: z.strictObject({ asked: z.string() }),
  async start() {
    const choice = (id: string) => ({ label: asTyped(id), to: { step: id } })
    return {
      reply: reply('question', asTyped('pick'), {
        choices: [
          choice('once'),
          { ...choice('again'), repeat: true },
          { ...choice('lead'), who: 'lead' },
          { ...choice('anybody'), who: 'crew' },
          choice('breaks'),
          { label: asTyped('note'), to: { command: 'note', options: { text: 'started' } } },
          { label: asTyped('leads'), to: { command: 'leads', options: {} }, repeat: true },
        ],
      }),
      state: { asked: 'kept' },
    }
  },
  async next({ asked }, { step }, tools) {
    await writeSite(tools, `${step} by ${tools.person.name}`)
    if (step === 'breaks') throw new Error('a bug in the second step')
    return { reply: reply('answer', asTyped(`${asked}: ${step}`)) }
  },
})

const form = (typed = {}) => ({
  title: asTyped('form'),
  open: say('common.fill-in'),
  fields: refill(
    [field('toy', 'name', { required: true }), field('toy', 'size'), field('toy', 'photo', { kind: 'file' })],
    typed,
  ),
  to: { step: 'filled' },
})

/** A form whose size must be a number; wrong input opens it again, filled in. */
const fill = defineCommand({
  name: 'fill',
  may: 'crew',
  options: z.strictObject({}),
  async start() {
    return { reply: reply('question', asTyped('fill'), { form: form(), audience: 'person' }) }
  },
  async next(_state, event, tools) {
    const fields = event.kind === 'submit' ? event.fields : {}
    if (!/^\d+$/.test(textOf(fields, 'size')))
      return {
        reply: reply('question', say('common.not-yet'), {
          form: { ...form(fields), open: say('common.correct-it') },
          audience: 'person',
        }),
      }
    await writeSite(tools, textOf(fields, 'name'))
    return { reply: reply('answer', asTyped(textOf(fields, 'name'))) }
  },
})

/** Writes, then breaks: by a plain bug, by an error of the database, or after swallowing one. */
const broken = defineCommand({
  name: 'broken',
  may: 'crew',
  options: z.strictObject({ how: z.enum(['throws', 'database', 'swallows', 'unreadable']) }),
  async start({ how }, tools) {
    const id = await writeSite(tools, 'must not stay')
    if (how === 'throws') throw new Error('a bug')
    const again = () => tools.store.sites.createArea({ siteId: id + 999, ...AREA }, tools.nowMs)
    if (how === 'database') await again()
    if (how === 'swallows') {
      await again().catch(() => undefined)
      throw new Error('a bug after an error of the database')
    }
    return { reply: reply('answer', asTyped('NaN'), { facts: [{ name: 'sum', value: Number.NaN }] }) }
  },
})
const AREA = {
  name: 'nowhere',
  squareFeet: '1',
  details: { turfs: [], overseed: null, use: '', seededOn: null, soddedOn: null, dormant: false },
}

const mixing = defineCommand({
  name: 'mixing',
  may: 'crew',
  stopsAfterExposure: true,
  options: z.strictObject({ note: z.string().optional() }),
  start: async () => ({ reply: reply('answer', asTyped('mixed')) }),
})

const leads = defineCommand({
  name: 'leads',
  may: 'lead',
  options: z.strictObject({}),
  start: async () => ({ reply: reply('answer', asTyped('for leads')) }),
})

export const toyCommands: readonly Command[] = [sum, note, equip, pick, fill, broken, mixing, leads]
