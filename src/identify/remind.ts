import type { Choice, Reply } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer as Answered, Tools } from '#src/desk/command.ts'
import { planHeldLook } from '#src/visits/held.ts'
import { keepWalk } from './keep.ts'
import { walkLine } from './lines.ts'
import { placeOf, placeWords } from './place.ts'
import type { Live } from './state.ts'

const DAY_MS = 86_400_000
/** Common practice, no source: a mown head is back within one to two weeks in season. */
const DAYS = [3, 7, 14]

/** When to look for a seed head again? */
export function askWhen(walk: Live): Answered {
  return {
    reply: reply('question', say('identify.wait-days'), {
      lines: [say('identify.wait-how')],
      choices: [
        ...DAYS.map(
          (days): Choice => ({
            label: say('identify.days', { days }),
            to: { step: 'wait-days', value: days },
          }),
        ),
        { label: say('common.cancel'), to: { step: 'stop' } },
      ],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

/** Plans a look for whoever asked, on the first workday from then on, and leaves the plant alone until then. */
export async function planLook(walk: Live, days: number, tools: Tools): Promise<Answered> {
  const { crew, nowMs, canWrite } = tools
  const kept = await keepWalk(walk, 'hold', tools)
  const dueAtMs =
    kept.id === null || !canWrite
      ? nowMs + days * DAY_MS
      : await planHeldLook({ walkId: kept.id, ...kept.body }, days, tools)
  return {
    reply: reply(
      'hold',
      say('identify.wait-planned', { at: { atMs: dueAtMs, zone: crew.zone, style: 'date' } }),
      {
        lines: [say('identify.wait-until'), ...walkLine(kept)],
        facts: [
          { name: 'result', value: 'hold', text: say('identify.result.hold') },
          { name: 'due', value: new Date(dueAtMs).toISOString() },
          ...(kept.number === null ? [] : [{ name: 'walk', value: kept.number }]),
        ],
        safety: { about: ['identification'] },
      },
    ),
    state: { kind: 'walk', walk: kept },
  }
}

/** The message that opens a look at a plant that was held. */
export async function lookAgain(walk: Live, tools: Pick<Tools, 'store' | 'today'>): Promise<Reply> {
  const place = placeWords(await placeOf(walk.body, tools))
  const to = (label: string, step: string): Choice => ({
    label: say(label),
    to: { step, value: walk.id ?? 0 },
  })
  return reply('question', say('identify.look-again-now'), {
    lines: [
      ...(place === null ? [] : [say('identify.at-place', { place })]),
      say('identify.look-again-how'),
      ...walkLine(walk),
    ],
    facts: walk.number === null ? [] : [{ name: 'walk', value: walk.number }],
    choices: [
      { ...to('identify.head-there', 'head-there'), look: 'main' },
      to('identify.head-not-yet', 'wait'),
      to('identify.leave', 'leave'),
    ],
    audience: 'person',
    safety: { about: ['identification'] },
  })
}
