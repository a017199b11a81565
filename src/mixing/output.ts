import { askFor } from '#src/conversation/ask-for.ts'
import { field } from '#src/conversation/fields.ts'
import type { Reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { addDays, daysBetween } from '#src/desk/clock.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { parseOutput } from '#src/quantity/parse-rate.ts'
import type { Output } from '#src/quantity/rate.ts'
import type { Person } from '#src/store/people.ts'
import type { Sprayer } from '#src/store/sprayers.ts'
import type { MixOptions } from './options.ts'
import type { Found, Named } from './resolve.ts'

/** How much this person puts out, where that comes from, and what to mind about it. */
export interface KnownOutput {
  readonly output: Output
  readonly source: Text
  readonly notes: readonly Text[]
}

/**
 * Typed, else measured with this sprayer in this person's hands; else a question. A measurement that is too old for
 * the crew is first a note and then a hold, with the two numbers to measure it again.
 */
export async function findOutput(
  given: MixOptions,
  named: Named,
  read: Reader,
  tools: Tools,
): Promise<Found<KnownOutput | null>> {
  const typed = read.output('output', given.output)
  if (typed !== undefined)
    return { ok: true, value: { output: typed, source: say('mixing.output-typed'), notes: [] } }
  if (read.problems.length > 0 || named.sprayer === null) return { ok: true, value: null }
  const measured = await measuredOutput(named.sprayer, named.person, tools)
  if (measured.kind !== 'measured')
    return {
      ok: false,
      ask: askForOutput(given, measured.because, measured.kind === 'too-old' ? 'hold' : 'question'),
    }
  return {
    ok: true,
    value: { output: measured.output, source: measured.source, notes: measured.notes },
  }
}

export type MeasuredOutput =
  | { readonly kind: 'none' | 'too-old'; readonly because: Text }
  | {
      readonly kind: 'measured'
      readonly output: Output
      readonly source: Text
      readonly notes: readonly Text[]
      /** The last day on which the crew still trusts it. */
      readonly goodUntil: string
    }

/** What this sprayer puts out in this person's hands, if that was measured and not too long ago. */
export async function measuredOutput(
  sprayer: Sprayer,
  person: Person,
  { store, today, crew }: Tools,
): Promise<MeasuredOutput> {
  const calibration = await store.sprayers.findCalibration(sprayer, person.id)
  if (calibration === undefined)
    return {
      kind: 'none',
      because: say('mixing.no-calibration', { sprayer: sprayer.name, person: person.name }),
    }
  const output = parseOutput(`${calibration.output.value} ${calibration.output.unit}`)
  if (!output.ok) throw new RangeError(`Cannot read the kept calibration ${calibration.id}`)
  const age = daysBetween(calibration.measuredOn, today)
  const { calibrationNoteDays, calibrationHoldDays } = crew.settings
  const figures = { day: { day: calibration.measuredOn }, age, person: person.name }
  if (age > calibrationHoldDays)
    return {
      kind: 'too-old',
      because: say('mixing.calibration-hold', { ...figures, limit: calibrationHoldDays }),
    }
  return {
    kind: 'measured',
    output: output.value,
    source: say('mixing.output-measured', figures),
    notes: age > calibrationNoteDays ? [say('mixing.calibration-old', figures)] : [],
    goodUntil: addDays(calibration.measuredOn, calibrationHoldDays),
  }
}

/** Two numbers measure an output again: ground sprayed with water, and how much that took. */
export function askForOutput(
  given: MixOptions,
  title: Text,
  outcome: 'question' | 'hold' = 'question',
): Answer {
  return {
    reply: reply(outcome, title, {
      lines: [say('mixing.recheck-how')],
      audience: 'person',
      form: {
        title: say('mixing.form.output-title'),
        open: say('mixing.form.output-open'),
        fields: [
          field('mixing.form', 'test_ground', { hint: true }),
          field('mixing.form', 'test_used', { hint: true }),
          field('mixing.form', 'output', { hint: true }),
        ],
        to: { step: 'output' },
      },
      safety: { about: ['measuring'] },
    }),
    state: given,
  }
}

/** A question for one figure that is simply missing. */
export function askForText(given: MixOptions, option: keyof MixOptions, title: Text): Answer {
  return {
    reply: reply('question', title, {
      audience: 'person',
      form: {
        title: say('mixing.form.title'),
        open: say('common.fill-in'),
        fields: [field('mixing.form', option, { required: true, hint: true })],
        to: { step: 'fields' },
      },
      safety: { about: ['measuring'] },
    }),
    state: given,
  }
}
export { askFor }
