import { field } from '#src/conversation/fields.ts'
import type { Form, Step } from '#src/conversation/reply.ts'
import { say } from '#src/conversation/text.ts'
import type { Plot, PlotKind } from '#src/store/plots.ts'

/** What is asked of a spot: its flag, where, how large, the weed cover now, a photo. */
export function plotForm(kind: PlotKind, plots: readonly Plot[], to: Step): Form {
  const form = 'visits.plot-form'
  const flags = plots.map(({ flag }) => flag)
  return {
    title: say(`visits.mark-${kind}-title`),
    open: say('common.fill-in'),
    fields: [
      field(form, 'flag', { required: true, hint: true, maxLength: 20, value: freeFlag(kind, flags) }),
      field(form, 'where', { hint: true, maxLength: 300 }),
      field(form, 'size', { hint: true, maxLength: 60 }),
      field(form, 'cover', { hint: true, maxLength: 8 }),
      field(form, 'photo', { kind: 'file', hint: true }),
    ],
    to,
  }
}

/** The next number that stands on no flag yet; `U` for the untreated spot. */
function freeFlag(kind: PlotKind, flags: readonly string[]): string {
  if (kind === 'untreated' && !flags.includes('U')) return 'U'
  const free = Array.from({ length: 99 }, (_, at) => String(at + 1)).find((one) => !flags.includes(one))
  return free ?? ''
}
