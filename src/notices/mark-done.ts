import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { recordName } from '#src/record/number.ts'
import { readSound } from '#src/records/read-record.ts'
import { noticeKinds } from './notice.ts'
import { placeOf } from './plan.ts'

const Done = z.strictObject({ record: z.int(), kind: z.enum(noticeKinds) })

/** A task that somebody of the crew has done. The press is kept as a turn: who, and when. */
export async function markDone(value: unknown, tools: Tools): Promise<Answer> {
  const { record, kind } = Done.parse(value)
  const { store, person, nowMs, crew } = tools
  const found = await readSound(store, record)
  const place =
    found === undefined
      ? say('notices.record', { number: recordName(record) })
      : await placeOf(found.current.record, tools)
  return {
    reply: reply('answer', say(`notices.done-${kind}`, { place }), {
      lines: [
        say('notices.done-by', {
          name: person.name,
          at: { atMs: nowMs, zone: crew.zone, style: 'date-time' },
        }),
      ],
      facts: [
        { name: 'record', value: recordName(record) },
        { name: 'notice', value: kind },
        { name: 'done_at', value: new Date(nowMs).toISOString() },
      ],
      safety: { about: ['bystanders'] },
    }),
  }
}
