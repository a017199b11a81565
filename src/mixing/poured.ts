import { z } from 'zod'
import type { Mix } from '#src/calculator/mix/outcome.ts'
import { type Choice, reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import type { MixBody } from '#src/store/mixes.ts'
import { ContentsDetails } from '#src/store/sprayers.ts'
import { keepMix, logMix, type MixedPart, mixBodyOf } from './kept-mix.ts'
import type { Ready } from './ready.ts'

/** What an answer leaves for the press on "poured". */
export const Poured = z.strictObject({
  sprayerId: z.number().int(),
  sprayer: z.string(),
  details: ContentsDetails,
})

/** What an answer leaves for the presses that follow it: the tank's contents, and the mix that a log draws from. */
export interface Left {
  readonly '@poured'?: z.infer<typeof Poured>
  readonly '@mix'?: MixBody
}

/** Nothing to log where neither product nor sprayer is known: somebody only reckons. */
export function leftOf(worked: readonly [MixedPart, ...MixedPart[]]): Left {
  const [{ ready, mix }] = worked
  const { product, sprayer } = ready.named
  return {
    ...pouredState(ready, mix),
    ...(product === null && sprayer === null ? {} : { '@mix': mixBodyOf(worked) }),
  }
}

/** "Poured" where a sprayer is named; else the log itself. */
export function pressesOf({ named }: Pick<Ready, 'named'>): Choice[] {
  if (named.sprayer !== null)
    return [
      {
        label: say('mixing.poured', { sprayer: named.sprayer.name }),
        to: { step: 'poured' },
        look: 'main',
      },
    ]
  return named.product === null ? [] : [{ label: say('mixing.log'), to: { step: 'log' } }]
}

export function pouredState(
  { named, rate, output }: Ready,
  mix: Mix,
): { '@poured'?: z.infer<typeof Poured> } {
  if (named.sprayer === null) return {}
  const said = sayRate(rate)
  const out = output === undefined ? null : sayOutput(output)
  return {
    '@poured': {
      sprayerId: named.sprayer.id,
      sprayer: named.sprayer.name,
      details: {
        products: [
          { entryId: named.product?.id ?? null, name: named.product?.name ?? `${said.value} ${said.unit}` },
        ],
        volume: mix.fillTo,
        rate: `${said.value} ${said.unit}`,
        output: out === null ? null : `${out.value} ${out.unit}`,
        note: '',
      },
    },
  }
}

/** Keeps who poured what and when; the next question on this sprayer opens with it, and a log draws from it. */
export async function pour(
  { sprayerId, sprayer, details }: z.infer<typeof Poured>,
  body: MixBody | undefined,
  tools: Tools,
): Promise<Answer> {
  const { store, person, nowMs, turn } = tools
  await store.sprayers.addEvent({
    sprayerId,
    personId: person.id,
    turnId: turn.id,
    kind: 'poured',
    atMs: nowMs,
    details,
  })
  const kept = body === undefined ? null : await keepMix(body, tools)
  const told = {
    volume: details.volume ?? { value: '0', unit: 'gal' },
    sprayer,
    products: { all: details.products.map(({ name }) => name) },
  }
  return {
    reply: reply('answer', say('mixing.poured-done', told), {
      lines: kept === null ? [] : [say('mixing.mix-number', { number: kept.number })],
      facts: kept === null ? [] : [{ name: 'mix', value: kept.number }],
      choices:
        kept === null
          ? []
          : [
              logMix(kept.number),
              { label: say('mixing.not-sprayed'), to: { step: 'not-sprayed', value: kept.id } },
            ],
      safety: { about: ['spraying', 'wind'] },
    }),
    state: {},
  }
}

/** Nothing of it was put out, and nothing will be: a valid end of a mix, with the sprayer still full. */
export async function notSprayed(mixId: unknown, { store, nowMs }: Tools): Promise<Answer> {
  const mix = typeof mixId === 'number' ? await store.mixes.get(mixId) : undefined
  if (mix === undefined) throw new RangeError('Cannot find the mix that was not sprayed')
  if (mix.closedAs === null) await store.mixes.close(mix.id, 'not sprayed', nowMs)
  return {
    reply: reply('answer', say('mixing.not-sprayed-done', { number: mix.number }), {
      lines: [say('mixing.not-sprayed-left', { volume: mix.body.made })],
      safety: { about: ['leftover', 'cleanup'] },
    }),
  }
}
