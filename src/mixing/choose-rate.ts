import { askFor } from '#src/conversation/ask-for.ts'
import { asTyped, say } from '#src/conversation/text.ts'
import { quantityTrouble } from '#src/conversation/trouble.ts'
import type { Answer, Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import { rateOf, readingOf } from '#src/label/figures.ts'
import type { Situation } from '#src/label/situation.ts'
import type { Verdict } from '#src/label/verdict.ts'
import { parseRate } from '#src/quantity/parse-rate.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { sayRate } from '#src/quantity/said.ts'
import { answerVerdict } from './answer-verdict.ts'
import { refuse } from './ask-mix.ts'
import type { MixOptions } from './options.ts'
import type { Ready } from './ready.ts'
import { allowSettingsOf } from './situation.ts'
import { askWhichGround, verdictFor } from './stops.ts'

export type Chosen =
  | { readonly ok: true; readonly value: Rate }
  | { readonly ok: false; readonly ask: Answer }

/** The typed rate; else the label's only one; among several lines or a span, the person chooses. */
export function chooseRate(
  { given, named, lifted }: Pick<Ready, 'given' | 'named' | 'lifted'>,
  situation: Situation,
  verdict: Verdict | null,
  tools: Tools,
): Chosen {
  const entry = named.product?.live.body
  if (given.rate !== undefined)
    return readRate(given, given.rate, entry === undefined ? {} : readingOf(entry.form), tools)
  if (entry === undefined || verdict === null) throw new RangeError('A mix needs a product or a rate')
  const judge = (one: Situation) => mayI(entry, one, allowSettingsOf(tools.crew))
  const ground = askWhichGround({ given, situation }, verdict, judge)
  if (ground !== null) return { ok: false, ask: ground }
  const stopped = verdictFor({ named, lifted }, verdict)
  if (stopped !== null && (stopped.outcome === 'hold' || stopped.outcome === 'refusal'))
    return { ok: false, ask: answerVerdict({ given, named }, stopped) }
  const [line, ...others] = verdict.rateLines
  if (line === undefined) throw new RangeError('A label entry has no rate line')
  if (others.length > 0)
    return {
      ok: false,
      ask: askFor(
        given,
        say('mixing.which-line', { product: entry.name }),
        verdict.rateLines.map((one) => ({ label: asTyped(one.line), set: { line: one.id } })),
        { safety: { about: ['measuring'] } },
      ),
    }
  const [printed] = line.rates
  if (printed === undefined) throw new RangeError('A rate line has no rate')
  if (printed.low === undefined || printed.low === printed.high)
    return { ok: true, value: rateOf(entry, printed.high) }
  return {
    ok: false,
    ask: askFor(
      given,
      say('mixing.which-rate', {
        low: sayRate(rateOf(entry, printed.low)),
        high: sayRate(rateOf(entry, printed.high)),
      }),
      [
        {
          label: say('mixing.lowest', { rate: sayRate(rateOf(entry, printed.low)) }),
          set: { rate: printed.low, line: line.id },
        },
        {
          label: say('mixing.highest', { rate: sayRate(rateOf(entry, printed.high)) }),
          set: { rate: printed.high, line: line.id },
        },
      ],
      { lines: [asTyped(line.line)], safety: { about: ['measuring'] } },
    ),
  }
}

/** An ounce of nothing in particular is a question, with both answers to press. */
function readRate(
  given: MixOptions,
  text: string,
  reading: Parameters<typeof parseRate>[1],
  tools: Tools,
): Chosen {
  const locale = tools.locale.startsWith('es') ? 'es' : 'en'
  const read = parseRate(text, { ...reading, locale })
  if (read.ok) return { ok: true, value: read.value }
  const { error } = read
  if (error.kind === 'ambiguous-ounce') {
    const as = (unit: string) => text.replace(/\b(oz|onzas?|ounces?)\b\.?/i, unit)
    return {
      ok: false,
      ask: askFor(
        given,
        quantityTrouble(error),
        [
          { label: say('mixing.ounce-weight'), set: { rate: as('oz wt') } },
          { label: say('mixing.ounce-fluid'), set: { rate: as('fl oz') } },
        ],
        { safety: { about: ['measuring'] } },
      ),
    }
  }
  return {
    ok: false,
    ask: refuse([say('desk.option-problem', { option: 'rate', problem: quantityTrouble(error) })]),
  }
}
