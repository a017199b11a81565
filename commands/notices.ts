import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { pickSite } from '#src/mixing/resolve.ts'
import { inForce } from '#src/notices/in-force.ts'
import { leavingNotice } from '#src/notices/leaving.ts'
import { markDone } from '#src/notices/mark-done.ts'
import { sayHolds } from '#src/notices/words.ts'
import { recordName } from '#src/record/number.ts'

const options = z.strictObject({
  site: z.string().min(1).max(80).optional().meta({ suggest: 'sites' }),
})
type Options = z.infer<typeof options>

/** So many lines fit on a phone; the rest is counted. */
const SHOWN = 15

/** What has to wait now, and what is still to be done: no mowing, water, keep off, signs, seed and sod. */
export default defineCommand({
  name: 'notices',
  may: 'crew',
  options,
  start: show,
  next: async (_state: undefined, event, tools) =>
    event.step === 'done' ? markDone(event.value, tools) : show(options.parse(event.value ?? {}), tools),
  leaving: leavingNotice,
})

async function show(given: Options, tools: Tools): Promise<Answer> {
  const site = given.site === undefined ? null : await pickSite(given, given.site, tools)
  if (site !== null && !site.ok) return site.ask
  const found = await inForce(site === null ? {} : { siteId: site.value.id }, tools)
  const shown = found.slice(0, SHOWN)
  return {
    reply: reply('answer', say('notices.count', { count: found.length }), {
      lines: [
        ...shown.map(({ place, notice, record, isOverdue }) =>
          say(isOverdue ? 'notices.line-overdue' : 'notices.line', {
            place,
            what: sayHolds(notice, tools.crew.zone),
            record: recordName(record),
          }),
        ),
        ...(found.length > SHOWN ? [say('notices.more', { count: found.length - SHOWN })] : []),
      ],
      facts: [{ name: 'count', value: found.length }],
      audience: 'person',
      safety: { about: ['bystanders'] },
    }),
  }
}
