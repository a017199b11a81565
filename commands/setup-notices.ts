import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { again } from '#src/desk/again.ts'
import { defineCommand, type Tools } from '#src/desk/command.ts'
import { type Found, pick } from '#src/mixing/resolve.ts'
import type { NoticeSettings } from '#src/store/crews.ts'
import type { Person } from '#src/store/people.ts'
import { planSummaryAnew } from '#src/summary/plan.ts'

const options = z.strictObject({
  mowing: z.string().min(1).max(80).optional().meta({ suggest: 'people' }),
  watering: z.string().min(1).max(80).optional().meta({ suggest: 'people' }),
  here: z.boolean().optional(),
  summary: z.string().min(1).max(10).optional(),
})
type Options = z.infer<typeof options>

/** Who is told what has to wait after a job, in which channel; when the week is summed up. */
export default defineCommand({
  name: 'setup notices',
  may: 'lead',
  options,
  state: options,
  start: change,
  next: again(options, change),
})

async function change(given: Options, tools: Tools) {
  const { store, crew, channelKey, updateCrew } = tools
  const people = await store.people.list()
  const before = crew.settings.notices
  const mowing = whoOf('mowing', given, people, before.mowing)
  if (!mowing.ok) return mowing.ask
  const watering = whoOf('watering', given, people, before.watering)
  if (!watering.ok) return watering.ask
  const problems: Text[] = []
  const isOff = given.summary !== undefined && /^(off|no|none|nunca)$/i.test(given.summary.trim())
  const typed = given.summary === undefined || isOff ? null : readTime(given.summary)
  if (given.summary !== undefined && !isOff && typed === null)
    problems.push(say('notices.setup-time', { text: given.summary }))
  const summaryAt = isOff ? null : (typed ?? before.summaryAt)
  if (given.here === true && channelKey === null) problems.push(say('notices.setup-no-channel'))
  if (problems.length > 0)
    return { reply: reply('refusal', say('setup.cannot'), { lines: problems, audience: 'person' as const }) }
  const channel = given.here === undefined ? before.channel : given.here ? channelKey : null
  const notices = { mowing: mowing.value, watering: watering.value, channel, summaryAt }
  const settings = { ...crew.settings, notices }
  await updateCrew({ settings })
  await planSummaryAnew({ ...tools, crew: { ...crew, settings } })
  return {
    reply: reply('answer', say('notices.setup'), {
      lines: card(notices, people),
      audience: 'person' as const,
      safety: { about: ['records'] },
    }),
  }
}

/** The id of who was named; null for the crew. */
function whoOf(
  option: 'mowing' | 'watering',
  given: Options,
  people: readonly Person[],
  before: number | null,
): Found<number | null> {
  const named = given[option]
  if (named === undefined) return { ok: true, value: before }
  if (/^(crew|cuadrilla)$/i.test(named.trim())) return { ok: true, value: null }
  const found = pick(given, option, named, people)
  return found.ok ? { ok: true, value: found.value.id } : found
}

/** `7:30`, `07:30`, `7`, `7:30 pm` as `07:30`; null for anything else. */
function readTime(text: string): string | null {
  const found = /^(\d{1,2})(?::([0-5]\d))?\s*(am|pm)?$/i.exec(text.trim())
  if (found?.[1] === undefined) return null
  const half = found[3]?.toLowerCase()
  const hour = Number(found[1])
  if (half === undefined ? hour > 23 : hour < 1 || hour > 12) return null
  const whole = half === undefined ? hour : (hour % 12) + (half === 'pm' ? 12 : 0)
  return `${String(whole).padStart(2, '0')}:${found[2] ?? '00'}`
}

function card(settings: NoticeSettings, people: readonly Person[]): Text[] {
  const nameOf = (id: number | null) => people.find((one) => one.id === id)?.name ?? say('notices.setup-crew')
  return [
    say('notices.setup-mowing', { who: nameOf(settings.mowing) }),
    say('notices.setup-watering', { who: nameOf(settings.watering) }),
    say('notices.setup-channel', { chosen: settings.channel === null ? 'no' : 'yes' }),
    settings.summaryAt === null
      ? say('notices.setup-no-summary')
      : say('notices.setup-summary', { time: { literal: settings.summaryAt } }),
  ]
}
