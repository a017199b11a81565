import { solveBoom } from '#src/calculator/calibrate/boom.ts'
import { calibrateByHand, calibrateByRefill } from '#src/calculator/calibrate/hand.ts'
import { testNozzles } from '#src/calculator/calibrate/nozzles.ts'
import { calibrateByOunces, ounceCourse } from '#src/calculator/calibrate/ounce.ts'
import { convertOutput, PER_ACRE, PER_THOUSAND } from '#src/calculator/calibrate/output.ts'
import { flowAtPressure, pressureForFlow } from '#src/calculator/calibrate/pressure.ts'
import { measureSpeed } from '#src/calculator/calibrate/speed.ts'
import { calibrateSpots } from '#src/calculator/calibrate/spots.ts'
import { granularTarget, halfRate, testSpreader } from '#src/calculator/calibrate/spreader.ts'
import type { Calculated } from '#src/calculator/worked.ts'
import type { Fact } from '#src/conversation/reply.ts'
import { factValue } from '#src/conversation/steps.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Output } from '#src/quantity/rate.ts'
import { sayOutput, sayRate } from '#src/quantity/said.ts'
import type { CalibrateOptions, Method } from './options.ts'
import type { Figures } from './read.ts'

/** What a method found: the number first, then what goes with it. */
export interface Found {
  readonly title: Text
  readonly lines: readonly Text[]
  readonly facts: readonly Fact[]
  /** An output that can be kept for a sprayer and a person. */
  readonly output: Output | null
}

export type Tried =
  | { readonly kind: 'asks'; readonly missing: readonly (keyof CalibrateOptions)[] }
  | { readonly kind: 'worked'; readonly result: Calculated<Found> }

type Run = (figures: Figures, given: CalibrateOptions) => Tried

const asks = (...missing: (keyof CalibrateOptions)[]): Tried => ({ kind: 'asks', missing })

/** The same calculation with its result told in words. */
function tell<T>(calculated: Calculated<T>, words: (value: T) => Found): Tried {
  const result = calculated.ok ? { ...calculated, value: words(calculated.value) } : calculated
  return { kind: 'worked', result }
}

const figure = ({ value, unit }: { value: string; unit: string }) => ({ value: factValue(value), unit })

function toldOutput(output: Output): Found {
  const said = sayOutput(output)
  const other = sayOutput(convertOutput(output, output.per.unit === 'acre' ? PER_THOUSAND : PER_ACRE))
  return {
    title: say('outputs.output', { output: said }),
    lines: [say('outputs.same', { output: other })],
    facts: [
      { name: 'output', ...figure(said) },
      { name: 'output_also', ...figure(other) },
    ],
    output,
  }
}

export const methods: Readonly<Record<Method, Run>> = {
  hand: ({ ground, used }) =>
    ground === undefined || used.length === 0
      ? asks('ground', 'used')
      : tell(calibrateByHand(ground, used), ({ output }) => toldOutput(output)),

  refill: ({ used, distances: [length], width: swath }) =>
    used[0] === undefined || length === undefined || swath === undefined
      ? asks('used', 'distance', 'width')
      : tell(calibrateByRefill({ used: used[0], length, swath }), ({ output }) => toldOutput(output)),

  ounce: ({ spacing, width, caught }) => {
    const across = spacing ?? width
    if (caught.length > 0) return tell(calibrateByOunces(caught), ({ output }) => toldOutput(output))
    if (across === undefined) return asks('spacing')
    return tell(ounceCourse(across), (course) => ({
      title: say('outputs.course', { course }),
      lines: [say('outputs.course-how')],
      facts: [{ name: 'course_length', ...figure(course) }],
      output: null,
    }))
  },

  boom: ({ flow, speed, output, spacing, width }) => {
    if (spacing === undefined && width === undefined) return asks('spacing')
    const missing = [flow, speed, output].filter((one) => one === undefined).length
    if (missing > 1) return asks('flow', 'speed', 'output')
    const across =
      spacing === undefined
        ? ({ of: 'boom', swath: width ?? { value: '1', unit: 'ft' } } as const)
        : ({ of: 'nozzle', spacing } as const)
    const boom = solveBoom({
      width: across,
      ...(flow === undefined ? {} : { flow }),
      ...(speed === undefined ? {} : { speed }),
      ...(output === undefined ? {} : { output }),
    })
    return tell(boom, (found) =>
      found.solved === 'output'
        ? toldOutput(found.output)
        : {
            title: say(`outputs.${found.solved}`, { [found.solved]: found[found.solved] }),
            lines: [],
            facts: [{ name: found.solved, ...figure(found[found.solved]) }],
            output: null,
          },
    )
  },

  nozzles: ({ caught }, { tolerance }) =>
    caught.length < 2
      ? asks('caught')
      : tell(
          testNozzles(
            caught,
            tolerance === undefined
              ? undefined
              : { notePercent: tolerance, failPercent: Math.max(tolerance, 10) },
          ),
          ({ average, range: [low, high] }) => ({
            title: say('outputs.nozzles', { average }),
            lines: [say('outputs.nozzle-range', { low, high })],
            facts: [
              { name: 'nozzle_average', ...figure(average) },
              { name: 'nozzle_low', ...figure(low) },
              { name: 'nozzle_high', ...figure(high) },
            ],
            output: null,
          }),
        ),

  speed: ({ distances, times }) => {
    const runs = times.flatMap((time, at) => {
      const distance = distances[at] ?? distances[0]
      return distance === undefined ? [] : [{ distance, time }]
    })
    if (runs.length === 0) return asks('distance', 'time')
    return tell(measureSpeed(runs), ({ speed, runs: all }) => ({
      title: say('outputs.speed', { speed }),
      lines:
        runs.length > 1
          ? [say('outputs.spread', { runs: all.count, spread: { value: all.spreadPercent, unit: '%' } })]
          : [],
      facts: [{ name: 'speed', ...figure(speed) }],
      output: null,
    }))
  },

  pressure: ({ flow, pressure, newPressure, output }, given) => {
    if (flow === undefined || pressure === undefined) return asks('flow', 'pressure', 'new_pressure')
    if (newPressure !== undefined)
      return tell(flowAtPressure(flow, pressure, newPressure), (found) => ({
        title: say('outputs.flow', { flow: found }),
        lines: [],
        facts: [{ name: 'flow', ...figure(found) }],
        output: null,
      }))
    if (given.target === undefined && output === undefined) return asks('new_pressure')
    return tell(pressureForFlow(pressure, flow, flow), (found) => ({
      title: say('outputs.pressure', { pressure: found }),
      lines: [],
      facts: [{ name: 'pressure', ...figure(found) }],
      output: null,
    }))
  },

  spreader: ({ ground, before, after, target }, { analysis }) => {
    if (target !== undefined && analysis !== undefined && before.length === 0)
      return tell(granularTarget(target, analysis.replace('%', '').trim()), (rate) => ({
        title: say('outputs.granular', { rate: sayRate(rate) }),
        lines: [say('outputs.half', { rate: sayRate(halfRate(rate)) })],
        facts: [
          { name: 'product_rate', ...figure(sayRate(rate)) },
          { name: 'half_rate', ...figure(sayRate(halfRate(rate))) },
        ],
        output: null,
      }))
    if (ground === undefined || before.length === 0 || after.length === 0)
      return asks('before', 'after', 'ground', 'target')
    const runs = before.flatMap((one, at) => {
      const left = after[at]
      return left === undefined ? [] : [{ before: one, after: left, ground }]
    })
    return tell(testSpreader(runs, target === undefined ? {} : { target }), ({ rate, deviationPercent }) => ({
      title: say('outputs.spreader', { rate: sayRate(rate) }),
      lines:
        deviationPercent === null
          ? []
          : [say('outputs.deviation', { off: { value: deviationPercent, unit: '%' } })],
      facts: [{ name: 'spreader_rate', ...figure(sayRate(rate)) }],
      output: null,
    }))
  },

  spots: ({ used: [used], ground }, { spots }) =>
    used === undefined || spots === undefined
      ? asks('used', 'spots')
      : tell(
          calibrateSpots(used, spots, ground === undefined ? {} : { spotArea: ground }),
          ({ perSpot, output }) => ({
            title: say('outputs.per-spot', { volume: perSpot }),
            lines: [
              say('outputs.spots-not-broadcast'),
              ...(output === null ? [] : [say('outputs.same', { output: sayOutput(output) })]),
            ],
            facts: [
              { name: 'per_spot', ...figure(perSpot) },
              ...(output === null ? [] : [{ name: 'output', ...figure(sayOutput(output)) }]),
            ],
            output: null,
          }),
        ),
}
