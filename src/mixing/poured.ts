import { z } from 'zod'
import type { Mix } from '#src/calculator/mix/outcome.ts'
import { type Reply, reply } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import { ContentsDetails } from '#src/store/sprayers.ts'
import type { Ready } from './ready.ts'

/** What an answer leaves for the press on "poured". */
export const Poured = z.strictObject({
  sprayerId: z.number().int(),
  sprayer: z.string(),
  details: ContentsDetails,
})

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

/** Keeps who poured what and when; the next question on this sprayer opens with it. */
export async function pour(
  poured: z.infer<typeof Poured>,
  { store, person, nowMs, turn }: Tools,
): Promise<Reply> {
  const { sprayerId, sprayer, details } = poured
  await store.sprayers.addEvent({
    sprayerId,
    personId: person.id,
    turnId: turn.id,
    kind: 'poured',
    atMs: nowMs,
    details,
  })
  return reply(
    'answer',
    say('mixing.poured-done', {
      volume: details.volume ?? { value: '0', unit: 'gal' },
      sprayer,
      products: { all: details.products.map(({ name }) => name) },
    }),
    { safety: { about: ['spraying', 'wind'] } },
  )
}
