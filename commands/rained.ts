import { z } from 'zod'
import { askFor, withSet } from '#src/conversation/ask-for.ts'
import { reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { type Answer, defineCommand, type Tools } from '#src/desk/command.ts'
import { tellLeads } from '#src/mixing/tell-leads.ts'
import { moveLookEarlier } from '#src/notices/earlier-look.ts'
import { findRained } from '#src/notices/find-rained.ts'
import { keepRain } from '#src/notices/keep-rain.ts'
import { endOf } from '#src/notices/moments.ts'
import { entriesOf, placeOf } from '#src/notices/plan.ts'
import { rainFinding } from '#src/notices/rained.ts'
import { readHours } from '#src/notices/read-hours.ts'
import { recordName } from '#src/record/number.ts'

const options = z.strictObject({
  record: z.string().min(1).max(12).optional(),
  site: z.string().min(1).max(80).optional().meta({ suggest: 'sites' }),
  hours: z.string().min(1).max(20).optional(),
  at: z.string().min(1).max(60).optional(),
})
type Options = z.infer<typeof options>

const HOURS = ['1', '2', '3', '4', '6', '8', '12', '24']

/** It rained after a job: held against the label's rain-free time, kept with the record, and the next look moved. */
export default defineCommand({
  name: 'rained',
  may: 'crew',
  options,
  state: options,
  start: rained,
  next: (given, event, tools) => rained(options.parse(withSet(given, event.value)), tools),
})

async function rained(given: Options, tools: Tools): Promise<Answer> {
  const found = await findRained(given, tools)
  if (!found.ok) return found.ask
  const { row, current } = found.found
  const record = recordName(row.number)
  const place = await placeOf(current.record, tools)
  if (given.hours === undefined && given.at === undefined)
    return askFor(
      given,
      say('rained.when', { place, record }),
      HOURS.map((hours) => ({ label: say('rained.hours', { hours: Number(hours) }), set: { hours } })),
      { lines: [say('rained.how')], audience: 'person', safety: { about: ['rain'] } },
    )
  const read = readHours(given, endOf(current.record, tools.crew.zone), tools)
  if (!read.ok) return refused(read.problem)
  const { hours } = read
  const finding = rainFinding(hours, await entriesOf(current.record, tools))
  await keepRain(found.found, hours, tools)
  const isInside = finding.kind === 'inside'
  const moved = isInside ? await moveLookEarlier(row.number, tools) : null
  if (isInside)
    await tellLeads(
      say('rained.lead', {
        place,
        record,
        hours: Number(hours),
        free: finding.rainFreeHours ?? 0,
      }),
      `rained-${row.number}-${hours}`,
      tools,
    )
  const lines: Text[] = [
    finding.kind === 'unsaid'
      ? say('rained.unsaid')
      : say(`rained.${finding.kind}`, {
          products: { all: [...finding.products] },
          free: finding.rainFreeHours ?? 0,
        }),
    ...(isInside ? [say('rained.not-again'), say('rained.lead-told')] : []),
    ...(moved === null ? [] : [say('rained.moved', { to: { day: moved.to }, from: { day: moved.from } })]),
  ]
  return {
    reply: reply(
      isInside ? 'heads-up' : 'answer',
      say('rained.title', { hours: Number(hours), place, record }),
      {
        lines,
        facts: [
          { name: 'record', value: record },
          { name: 'rain_after', value: factValue(hours), unit: 'h' },
          { name: 'rain_free', value: finding.kind },
          ...(moved === null ? [] : [{ name: 'due', value: moved.to }]),
        ],
        safety: { about: ['rain'] },
      },
    ),
  }
}

function refused(problem: Text): Answer {
  return { reply: reply('refusal', say('rained.cannot'), { lines: [problem], audience: 'person' }) }
}
