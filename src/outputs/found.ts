import {
  convertOutput,
  type OutputForm,
  PER_ACRE,
  PER_HECTARE,
  PER_THOUSAND,
} from '#src/calculator/calibrate/output.ts'
import type { Runs } from '#src/calculator/calibrate/runs.ts'
import type { Calculated } from '#src/calculator/worked.ts'
import type { Fact } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { big, decimalText } from '#src/quantity/big.ts'
import type { Output } from '#src/quantity/rate.ts'
import { type Said, sayOutput } from '#src/quantity/said.ts'
import type { CalibrateOptions } from './options.ts'
import type { Figures } from './read.ts'

/** A figure that can be kept for a sprayer and a person. Spots and spreaders never stand for a broadcast output. */
export interface Keepable extends Said {
  readonly kind: 'broadcast' | 'spots' | 'spreader'
}

/** What a method found: the number first, then what goes with it. */
export interface Found {
  readonly title: Text
  readonly lines: readonly Text[]
  readonly facts: readonly Fact[]
  readonly keep: Keepable | null
}

export type Tried =
  | { readonly kind: 'asks'; readonly missing: readonly (keyof CalibrateOptions)[]; readonly why?: Text }
  | { readonly kind: 'worked'; readonly result: Calculated<Found> }

export type Run = (figures: Figures, given: CalibrateOptions) => Tried

export const asks = (...missing: (keyof CalibrateOptions)[]): Tried => ({ kind: 'asks', missing })

/** The same calculation with its result told in words. */
export function tell<T>(calculated: Calculated<T>, words: (value: T) => Found): Tried {
  const result = calculated.ok ? { ...calculated, value: words(calculated.value) } : calculated
  return { kind: 'worked', result }
}

export const figure = ({ value, unit }: Said) => ({ value: factValue(value), unit })

/** To as many decimals as a tape or a watch can tell. */
export function rounded<T extends Said>(one: T, decimals: number): T {
  return { ...one, value: decimalText(big(one.value).toDecimalPlaces(decimals)) }
}

const PER_HUNDRED_M2: OutputForm = { unit: 'L', per: { value: '1', unit: '100 m2' } }

/** Both forms in which an output is told: lawns by the thousand, fields by the acre. */
export function formsFor(
  { form, isMetric }: Figures,
  kind: 'lawn' | 'field',
): { readonly form: OutputForm; readonly other: OutputForm } {
  const lawn = isMetric ? PER_HUNDRED_M2 : PER_THOUSAND
  const field = isMetric ? PER_HECTARE : PER_ACRE
  const own = form ?? (kind === 'lawn' ? lawn : field)
  const isField = own.per.unit === 'acre' || own.per.unit === 'ha'
  return { form: own, other: isField ? lawn : field }
}

/** An output in both forms. */
export function tellOutput(output: Output, other: OutputForm, runs: Runs | null = null): Found {
  const said = sayOutput(output)
  const also = sayOutput(convertOutput(output, other))
  return {
    title: say('outputs.output', { output: said }),
    lines: [say('outputs.same', { output: also }), ...spreadLines(runs)],
    facts: [
      { name: 'output', ...figure(said) },
      { name: 'output_also', ...figure(also) },
      ...spreadFacts(runs),
    ],
    keep: { kind: 'broadcast', ...said },
  }
}

const spreadOf = (runs: Runs) => rounded({ value: runs.spreadPercent, unit: '%' }, 1)

export function spreadLines(runs: Runs | null): Text[] {
  if (runs === null || runs.count < 2) return []
  return [say('outputs.spread', { runs: runs.count, spread: spreadOf(runs) })]
}

export function spreadFacts(runs: Runs | null): Fact[] {
  return runs === null || runs.count < 2 ? [] : [{ name: 'spread', ...figure(spreadOf(runs)) }]
}
