import { z } from 'zod'
import { withSet } from '#src/conversation/ask-for.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { defineCommand } from '#src/desk/command.ts'
import { listRecords, Older } from '#src/records/list-records.ts'
import { filterOf, filterOptions } from '#src/records/options.ts'
import { showRecord } from '#src/records/show-record.ts'

const options = z.strictObject(filterOptions)

/** Application records, the newest first: found by place, product, person, days, complete or not. */
export default defineCommand({
  name: 'records',
  may: 'crew',
  options,
  state: z.looseObject({}),
  start: find,
  async next(given, event, tools) {
    if (event.step === 'older')
      return { reply: await listRecords(Older.parse(event.value), tools), state: {} }
    if (event.step === 'show') return { reply: await showRecord(z.int().parse(event.value), tools) }
    return find(options.parse(withSet(given, event.value)), tools)
  },
})

async function find(given: z.infer<typeof options>, tools: Tools): Promise<Answer> {
  const filter = await filterOf(given, tools)
  return filter.ok ? { reply: await listRecords({ filter: filter.value }, tools), state: {} } : filter.ask
}
