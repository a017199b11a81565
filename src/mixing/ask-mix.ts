import { askFor } from '#src/conversation/ask-for.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Answer } from '#src/desk/command.ts'
import type { MixOptions } from './options.ts'
import { askForText } from './output.ts'
import type { Named } from './resolve.ts'

/** Everything that could not be read, at once; nothing is kept. */
export function refuse(problems: readonly Text[]): Answer {
  return { reply: reply('refusal', say('mixing.cannot'), { lines: [...problems], audience: 'person' }) }
}

/** How full, where nothing says how much mix. */
export function askHowMuch(given: MixOptions, { sprayer }: Named): Answer {
  if (sprayer === null) return askForText(given, 'tank', say('mixing.no-tank'))
  const part = (label: string, tank: string) => ({ label: say(label), set: { tank } })
  return askFor(
    given,
    say('mixing.how-full', { sprayer: sprayer.name, tank: sprayer.details.tank }),
    [part('mixing.full', '1'), part('mixing.half', '1/2'), part('mixing.quarter', '1/4')],
    { safety: { about: ['measuring'] } },
  )
}
