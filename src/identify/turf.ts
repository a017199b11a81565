import { SET } from '#src/conversation/ask-for.ts'
import type { Choice } from '#src/conversation/reply.ts'
import { reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer as Answered, Tools } from '#src/desk/command.ts'
import { consider } from '#src/key/index.ts'
import { plants, turfTaxa } from '#src/plants.ts'
import { foldAnswers } from './answers.ts'
import { factsOf } from './facts.ts'
import type { KeyOptions } from './options.ts'
import { choice } from './question.ts'
import { UNKNOWN_TURF } from './read-names.ts'
import type { Live } from './state.ts'
import { sayPlant } from './words.ts'

/** "I do not know" takes one place of the 25 that a reply has. */
const OFFERED = 24

/** Which grass is this lawn? It decides what must never be taken for a weed here. */
export function turfPage(walk: Live, _tools: Tools): Answered {
  const turfs = turfTaxa().slice(0, OFFERED)
  const { standing } = consider(plants(), {
    turf: { kind: 'unknown' },
    answers: foldAnswers(walk.body.answers),
    mown: walk.body.mown,
  })
  return {
    reply: reply('question', say('identify.turf'), {
      lines: [say('identify.turf-why')],
      facts: factsOf(standing, { question: 'turf', walk: walk.number }),
      choices: [
        ...turfs.map(({ id }): Choice => ({ label: sayPlant(id), to: { step: 'turf', value: [id] } })),
        choice('identify.turf-unknown', { step: 'turf', value: [] }),
      ],
      audience: 'person',
      safety: { about: ['identification'] },
    }),
    state: { kind: 'walk', walk },
  }
}

/** A turf that was typed and not clear: what it may mean, to press. */
export function askTurf(given: KeyOptions, typed: string, nearest: readonly string[]): Answered {
  const turfs = nearest.length > 0 ? nearest : turfTaxa().map(({ id }) => id)
  return {
    reply: reply(
      'question',
      say(nearest.length > 0 ? 'find.which' : 'find.none', {
        option: say('option.turf'),
        typed,
      }),
      {
        choices: [
          ...turfs
            .slice(0, OFFERED)
            .map((id): Choice => ({ label: sayPlant(id), to: { step: SET, value: { turf: id } } })),
          choice('identify.turf-unknown', { step: SET, value: { turf: UNKNOWN_TURF } }),
        ],
        facts: [
          { name: 'result', value: 'hold', text: say('identify.result.hold') },
          { name: 'question', value: 'turf', text: say('identify.turf') },
        ],
        audience: 'person',
        safety: { about: ['identification'] },
      },
    ),
    state: { kind: 'asking', given },
  }
}
