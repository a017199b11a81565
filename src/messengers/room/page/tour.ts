import { say } from '#src/conversation/text.ts'
import type { Registry } from '#src/desk/registry.ts'
import { addDays, type Day } from '#src/label/day.ts'
import { weekdayOf } from '#src/recheck/workdays.ts'
import type { InWords } from './in-words.ts'
import type { PageStep } from './shapes.ts'

type Does = PageStep['does']

/** One patch of the demo crew, from the first look to the last. */
const PLACE = { site: 'Fallowquay Ballpark', area: 'Outfield' }
const PRODUCT = 'Cawderly Spot'

interface Step {
  readonly id: 'weed' | 'amount' | 'log' | 'wait' | 'now'
  /** The first of these whose command there is. */
  readonly does: readonly Does[]
}

/** A week for the product to show, and then a day on which crews work: the message of a Sunday would not come. */
const waitFrom = (today: Day): number => (weekdayOf(addDays(today, 8)) === 7 ? 9 : 8)

const stepsOf = (days: number): readonly Step[] => [
  {
    id: 'weed',
    does: [
      {
        kind: 'form',
        command: 'key',
        options: {
          ...PLACE,
          guess: 'dallisgrass',
          observed:
            'group=grass; habit=bunch; vernation=rolled; sheath_shape=flattened; ligule_type=membrane; midrib=strong; seedhead=ladder',
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
  { id: 'wait', does: [{ kind: 'days', days }] },
  {
    id: 'now',
    does: [
      { kind: 'form', command: 'recheck due', options: {} },
      { kind: 'form', command: 'site show', options: { site: PLACE.site } },
    ],
  },
]

/** The tour of the whole job in five steps, as it goes from this day on. */
export function tourFor(registry: Pick<Registry, 'has'>, inWords: InWords, today: Day): PageStep[] {
  const days = waitFrom(today)
  return stepsOf(days).flatMap(({ id, does }) => {
    const done = does.find((one) => one.kind === 'days' || registry.has(one.command))
    if (done === undefined) return []
    const given = done.kind === 'days' ? { days: done.days } : undefined
    return [
      {
        title: inWords(say(`page.tour-${id}`, given)),
        text: inWords(say(`page.tour-${id}-about`)),
        button: inWords(say(`page.tour-${id}-do`, given)),
        does: done,
      },
    ]
  })
}
