import type { Reply } from '#src/conversation/reply.ts'
import { asTyped, say, type Text } from '#src/conversation/text.ts'
import type { Named } from './resolve.ts'

/** Lines of the product's own label for this task; the full list at the day's first mix of it. */
export function safetyOf({ product }: Named, first: boolean): Reply['safety'] {
  const about = ['measuring', 'mixing']
  if (product === null) return { about }
  const { safety, signalWord } = product.live.body
  const short: Text[] = [
    ...(signalWord === 'none'
      ? []
      : [say('mixing.signal', { word: say(`signal.${signalWord.toLowerCase()}`), product: product.name })]),
    say('mixing.wear-mixing', { items: { all: safety.mixing, join: 'and' } }),
  ]
  if (!first) return { about, label: short }
  return {
    about,
    label: [
      ...short,
      say('mixing.wear-spraying', { items: { all: safety.spraying, join: 'and' } }),
      ...(safety.keepOff === undefined ? [] : [asTyped(safety.keepOff)]),
    ],
  }
}
