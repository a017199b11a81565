import { askFor } from '#src/conversation/ask-for.ts'
import { field } from '#src/conversation/fields.ts'
import type { Reader } from '#src/conversation/reader.ts'
import { reply } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { daysBetween } from '#src/desk/clock.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { parseOutput } from '#src/quantity/parse-rate.ts'
import type { Output } from '#src/quantity/rate.ts'
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
  const calibration = await tools.store.sprayers.findCalibration(named.sprayer, named.person.id)
  if (calibration === undefined)
    return {
      ok: false,
      ask: askForOutput(
        given,
        say('mixing.no-calibration', { sprayer: named.sprayer.name, person: named.person.name }),
      ),
    }
  const output = parseOutput(`${calibration.output.value} ${calibration.output.unit}`)
  if (!output.ok) throw new RangeError(`Cannot read the kept calibration ${calibration.id}`)
  const age = daysBetween(calibration.measuredOn, tools.today)
  const { calibrationNoteDays, calibrationHoldDays } = tools.crew.settings
  const figures = { day: { day: calibration.measuredOn }, age, person: named.person.name }
  if (age > calibrationHoldDays)
    return {
      ok: false,
      ask: askForOutput(
        given,
        say('mixing.calibration-hold', { ...figures, limit: calibrationHoldDays }),
        'hold',
      ),
    }
  return {
    ok: true,
    value: {
      output: output.value,
      source: say('mixing.output-measured', figures),
      notes: age > calibrationNoteDays ? [say('mixing.calibration-old', figures)] : [],
    },
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
