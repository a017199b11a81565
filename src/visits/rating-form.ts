import { field } from '#src/conversation/fields.ts'
import type { Attachment, Form } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import { controlSteps } from '#src/efficacy/scale.ts'
import { sayInjury } from '#src/recheck/words.ts'
import type { Plot } from '#src/store/plots.ts'
import { readInjuryScale } from '../../data/recheck/load.ts'

/** What may have happened since the visit before, to tick. */
export const seenSince = ['regrowth', 'seedlings', 'rain', 'mown'] as const

/** At most two numbers to type, one scale for both; the lawn's injury, what happened since, a photo. */
export function ratingForm(plots: readonly Plot[], visit: number): Form {
  const form = 'visits.rating-form'
  const treated = plots.filter(({ kind }) => kind === 'treated').map(({ flag }) => flag)
  const isCompared = plots.some(({ kind }) => kind === 'untreated')
  const control = field(form, 'control', { required: true, hint: true, maxLength: 200 })
  return {
    title: say('visits.rating-form.title'),
    open: say('visits.rate'),
    fields: [
      { ...control, label: say('visits.rating-form.control', { plots: { all: treated } }) },
      ...(isCompared ? [field(form, 'untreated', { hint: true, maxLength: 20 })] : []),
      field(form, 'injury', {
        kind: 'choice',
        value: '9',
        required: true,
        options: readInjuryScale().map(({ step }) => ({ value: String(step), label: sayInjury(step) })),
      }),
      field(form, 'seen', {
        kind: 'choices',
        options: seenSince.map((value) => ({ value, label: say(`visits.seen-${value}`) })),
      }),
      field(form, 'photo', { kind: 'file', hint: true }),
    ],
    to: { step: 'rated', value: { visit } },
  }
}

/** What the numbers look like. */
export const scalePicture: Attachment = {
  name: 'scale.png',
  alt: say('visits.scale-alt'),
  from: {
    picture: 'rating-scale',
    data: { title: { say: 'visits.scale' }, steps: [...controlSteps] },
  },
}
