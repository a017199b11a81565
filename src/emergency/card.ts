import { type Reply, reply } from '#src/conversation/reply.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { loadEmergencyCard } from '#src/words/load.ts'
import { lastMix } from './last-mix.ts'

let kept: ReturnType<typeof loadEmergencyCard> | null = null
const card = () => {
  kept ??= loadEmergencyCard()
  return kept
}

/**
 * Whom to call before anything else, then the first aid of the product that this person mixed last, where they are,
 * and the steps for a spill. Nothing is asked.
 */
export async function emergencyCard(tools: Tools): Promise<Reply> {
  const { numbers, steps } = card()
  const { product, site } = await lastMix(tools)
  const call = (id: string): Text[] =>
    numbers.filter((one) => one.id === id).map(({ number }) => say(`emergency.${id}`, { number }))
  const about = (...routes: string[]): Text[] =>
    steps.filter(({ route }) => routes.includes(route)).map(({ id }) => say(`emergency.${id}`))
  const own = product?.live?.body.safety.firstAid ?? []
  const open = await tools.store.incidents.listOpen(tools.person.id)
  return reply(tools.heard === null ? 'answer' : 'hold', say('emergency.title'), {
    lines: [
      ...call('call-911'),
      ...call('poison-help'),
      ...(tools.heard === null ? [] : [say('emergency.heard', { words: tools.heard })]),
      ...(site === null ? [] : [say('emergency.site', { address: site.address })]),
      ...(product === null ? [] : [say('emergency.product', { product: product.name })]),
      ...own.map(({ words }) => asTyped(words)),
      ...about('first', 'eye', 'skin', 'breathed', 'swallowed', 'heat', 'take-along'),
      ...about('spill'),
      ...call('spill-line'),
      ...call('npic'),
      say('emergency.not-here'),
    ],
    audience: tools.channelKey === null ? 'person' : 'crew',
    choices:
      open.length === 0
        ? [{ label: say('emergency.somebody'), to: { step: 'exposed' }, look: 'stop', who: 'crew' }]
        : [{ label: say('emergency.dealt-with'), to: { step: 'over' }, who: 'crew' }],
    safety: { about: ['emergency'] },
  })
}
