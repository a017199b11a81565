import { field } from '#src/conversation/fields.ts'
import type { Form } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Assessment, Comparison } from '#src/key/index.ts'
import { sayPart, sayStates } from './words.ts'

/** What else the named plant must show, to be held against the one at hand before anything is mixed. */
export function compareLines({ compare }: Assessment): Text[] {
  if (compare.length === 0) return []
  return [
    say('identify.compare'),
    ...compare.map((one) => say('identify.compare-mark', { mark: sayMark(one) })),
  ]
}

function sayMark({ character, fits }: Comparison): Text {
  return say('identify.seen', { part: sayPart(character), seen: sayStates(character, fits) })
}

/** Where something does not fit, ticks say what; null when there is nothing left to compare. */
export function compareForm({ compare }: Assessment): Form | null {
  if (compare.length === 0) return null
  const options = compare.map((one) => ({ value: one.character, label: sayMark(one) }))
  return {
    title: say('identify.compare-form.title'),
    open: say('identify.compare-form.open'),
    fields: [
      field('identify.compare-form', 'clashes', { kind: 'choices', options }),
      field('identify.compare-form', 'unseen', { kind: 'choices', options }),
    ],
    to: { step: 'compared' },
  }
}
