import type { Bot } from '#src/bot.ts'
import { say } from '#src/conversation/text.ts'
import type { InWords } from './in-words.ts'
import type { PageStep } from './shapes.ts'

type Does = PageStep['does']

/** One patch of the demo crew, from the first look to the last. */
const PLACE = { site: 'Wrennoch Chapel', area: 'Chapel green' }
const PRODUCT = 'Tarnbrask 75 WDG'

interface Step {
  readonly id: 'weed' | 'amount' | 'log' | 'wait' | 'now'
  /** The first of these whose command there is. */
  readonly does: readonly Does[]
}

const STEPS: readonly Step[] = [
  {
    id: 'weed',
    does: [
      {
        kind: 'form',
        command: 'key',
        options: {
          ...PLACE,
          guess: 'yellow nutsedge',
          observed: 'stem_section=triangular; underground=tubers-single; seedhead=umbel-spikes; group=sedge',
        },
      },
    ],
  },
  {
    id: 'amount',
    does: [
      {
        kind: 'form',
        command: 'mix',
        options: { product: PRODUCT, tank: '1/2', sprayer: 'Hand can', ...PLACE },
      },
    ],
  },
  {
    id: 'log',
    does: [
      { kind: 'form', command: 'log', options: {} },
      { kind: 'form', command: 'last', options: {} },
    ],
  },
  // On that day the first look at what this product did is due.
  { id: 'wait', does: [{ kind: 'days', days: 14 }] },
  {
    id: 'now',
    does: [
      { kind: 'form', command: 'recheck due', options: {} },
      { kind: 'form', command: 'site show', options: { site: PLACE.site } },
    ],
  },
]

/** The tour of the whole job in five steps. */
export function tourFor(bot: Bot, inWords: InWords): PageStep[] {
  return STEPS.flatMap(({ id, does }) => {
    const done = does.find((one) => one.kind === 'days' || bot.registry.has(one.command))
    if (done === undefined) return []
    return [
      {
        title: inWords(say(`page.tour-${id}`)),
        text: inWords(say(`page.tour-${id}-about`)),
        button: inWords(say(`page.tour-${id}-do`)),
        does: done,
      },
    ]
  })
}
