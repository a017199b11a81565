import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { refuseHousehold } from './household.ts'
import type { MixOptions } from './options.ts'
import { mixOne } from './run.ts'
import { MOST_STOPS, mixForStops, readStops } from './several-sites.ts'
import { mixTank } from './tank/mix-tank.ts'

/** One product, or several in one tank; for one site, or for the day's sites. */
export function mix(given: MixOptions, tools: Tools): Promise<Answer> {
  const stops = readStops(given.site)
  if (stops.length === 0) return mixHere(given, tools)
  if (stops.length > MOST_STOPS || given.area !== undefined) return Promise.resolve(refuseStops())
  return mixForStops(given, stops, (one) => mixHere(one, tools))
}

async function mixHere(given: MixOptions, tools: Tools): Promise<Answer> {
  const refused = await refuseHousehold(given, tools)
  if (refused !== null) return refused
  return given.also === undefined ? mixOne(given, tools) : mixTank(given, tools)
}

function refuseStops(): Answer {
  return {
    reply: reply('refusal', say('mixing.sites-how', { most: MOST_STOPS }), {
      audience: 'person',
      safety: { about: ['measuring'] },
    }),
  }
}
