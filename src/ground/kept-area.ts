import { reply } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { findPlace } from '#src/mixing/resolve.ts'
import { convert } from '#src/quantity/quantity.ts'
import { keptPicture } from './kept-picture.ts'
import type { AreaOptions } from './options.ts'

/** The size of an area as it is kept, with the drawing of what was measured where there is one. */
export async function showKeptArea(given: AreaOptions, tools: Tools): Promise<Answer | null> {
  const place = await findPlace(given, tools)
  if (!place.ok) return place.ask
  const { site, area } = place.value
  if (site === null || area === null) return null
  const size = { value: area.squareFeet, unit: 'ft2' } as const
  const { measured } = area.details
  return {
    reply: reply('answer', say('ground.area', { area: size }), {
      lines: [
        say('ground.same', { area: convert(size, 'acre') }),
        say(measured === undefined ? 'ground.of-typed' : 'ground.of-measured', {
          name: area.name,
          site: site.name,
        }),
      ],
      facts: [{ name: 'area', value: factValue(size.value), unit: size.unit }],
      files: measured === undefined ? [] : [keptPicture(measured, size, area.name)],
      safety: { about: ['measuring'] },
    }),
    state: given,
  }
}
