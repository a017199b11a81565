import { z } from 'zod'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { readRecordName } from '#src/record/number.ts'
import { showRecord } from '#src/records/show-record.ts'

/** One application record with everything that was amended in it. */
export default defineCommand({
  name: 'record show',
  may: 'crew',
  options: z.strictObject({
    number: z
      .string()
      .min(1)
      .max(20)
      .meta({ aliases: ['record'] }),
  }),
  async start({ number }, tools) {
    const read = readRecordName(number)
    if (read === null)
      return { reply: reply('refusal', say('records.number', { text: number }), { audience: 'person' }) }
    return { reply: await showRecord(read, tools) }
  },
})
