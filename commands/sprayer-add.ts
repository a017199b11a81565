import { z } from 'zod'
import { reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { defineCommand } from '#src/desk/command.ts'
import { compareQuantities } from '#src/quantity/quantity.ts'
import { MOST_TANK } from '#src/sprayer/limits.ts'
import { sprayerCard } from '#src/sprayer/sprayer-card.ts'
import { SprayerDetails, setupOf } from '#src/store/sprayers.ts'

const text = (most = 80) => z.string().min(1).max(most)

/** Adds a sprayer, or changes one: tank, marks, tip, pressure. Another tip or pressure voids what was measured. */
export default defineCommand({
  name: 'sprayer add',
  may: 'lead',
  options: z.strictObject({
    name: text(),
    tank: text(),
    marks: text().optional(),
    kind: text().optional(),
    tip: text().optional(),
    pressure: text().optional(),
  }),
  async start(given, tools) {
    const { store, nowMs, locale } = tools
    const read = reader(locale)
    const tank = read.quantity('tank', given.tank, { expect: 'volume', limit: MOST_TANK })
    const marks = read.quantity('marks', given.marks, { expect: 'volume', limit: MOST_TANK })
    if (tank !== undefined && marks !== undefined && compareQuantities(marks, tank) > 0)
      read.refuse('marks', say('sprayer.marks-wide'))
    if (tank === undefined || read.problems.length > 0)
      return {
        reply: reply('refusal', say('sprayer.cannot'), { lines: [...read.problems], audience: 'person' }),
      }
    const details = SprayerDetails.parse({
      tank,
      marks: marks ?? null,
      kind: given.kind ?? '',
      tip: given.tip ?? '',
      pressure: given.pressure ?? '',
    })
    const known = (await store.sprayers.list()).find(
      ({ name }) => name.toLowerCase() === given.name.toLowerCase(),
    )
    const changed = known !== undefined && setupOf(known.details) !== setupOf(details)
    if (known === undefined) await store.sprayers.create({ name: given.name, details }, nowMs)
    else await store.sprayers.update(known.id, details)
    await tools.namesChanged()
    const sprayer = (await store.sprayers.list()).find(
      ({ name }) => name.toLowerCase() === given.name.toLowerCase(),
    )
    if (sprayer === undefined) throw new Error('Cannot find the sprayer just kept')
    const card = await sprayerCard(sprayer, tools)
    return {
      reply: {
        ...card,
        title: say('sprayer.kept', { name: sprayer.name }),
        lines: [...card.lines, ...(changed ? [say('sprayer.voided')] : [])],
      },
    }
  },
})
