import { type BoomGiven, boomSwath, solveBoom, type Width } from '#src/calculator/calibrate/boom.ts'
import { calibrateByHand, calibrateByRefill } from '#src/calculator/calibrate/hand.ts'
import type { Flow, Length, Volume } from '#src/calculator/calibrate/measured.ts'
import { testNozzles, usualTolerance } from '#src/calculator/calibrate/nozzles.ts'
import { calibrateByOunces, ounceCourse } from '#src/calculator/calibrate/ounce.ts'
import { averageRuns, tooVaried } from '#src/calculator/calibrate/runs.ts'
import { flowOf } from '#src/calculator/calibrate/speed.ts'
import { calibrateSpots } from '#src/calculator/calibrate/spots.ts'
import type { Finding } from '#src/calculator/worked.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { big, sumOf } from '#src/quantity/big.ts'
import { amountIn, quantity } from '#src/quantity/quantity.ts'
import { sayOutput } from '#src/quantity/said.ts'
import {
  asks,
  figure,
  formsFor,
  type Run,
  rounded,
  spreadFacts,
  spreadLines,
  type Tried,
  tell,
  tellOutput,
} from './found.ts'
import type { Figures } from './read.ts'

/** Ground sprayed with water, and how much that took. */
export const hand: Run = (figures) => {
  const { ground, used } = figures
  if (ground === undefined || used.length === 0) return asks('ground', 'used')
  const { form, other } = formsFor(figures, 'lawn')
  return tell(calibrateByHand(ground, used, { form }), ({ output, runs }) => tellOutput(output, other, runs))
}

/** What it takes to fill up again after a strip. */
export const refill: Run = (figures) => {
  const { used, distances, width: swath } = figures
  const [length, another] = distances
  if (used.length === 0 || length === undefined || swath === undefined)
    return asks('used', 'distance', 'width')
  if (another !== undefined) return { kind: 'asks', missing: ['distance'], why: say('outputs.one-strip') }
  const { form, other } = formsFor(figures, 'lawn')
  return tell(calibrateByRefill({ used, length, swath }, { form }), ({ output, runs }) =>
    tellOutput(output, other, runs),
  )
}

/** The 1/128 acre: how far to go, and what a catch for that long means. */
export const ounce: Run = (figures) => {
  const { spacing, width, caught, ground } = figures
  const plot = ground === undefined ? {} : { plot: ground }
  const across = spacing ?? width
  if (caught.length > 0) {
    const { form, other } = formsFor(figures, 'field')
    return tell(calibrateByOunces(caught, { form, ...plot }), ({ output, runs }) =>
      tellOutput(output, other, runs),
    )
  }
  if (across === undefined) return asks('spacing', 'width')
  return tell(ounceCourse(across, ground), (exact) => {
    const course = rounded(exact, 1)
    return {
      title: say('outputs.course', { course }),
      lines: [say(ground === undefined ? 'outputs.course-how' : 'outputs.course-how-plot')],
      facts: [{ name: 'course_length', ...figure(course) }],
      keep: null,
    }
  })
}

const widthOf = ({ spacing, width }: Figures): Width | undefined => {
  if (spacing !== undefined) return { of: 'nozzle', spacing }
  return width === undefined ? undefined : { of: 'boom', swath: width }
}

/** A flow that was typed, or that a catch of known time tells. */
function flowFrom({ flow, caught, times }: Figures): Flow | undefined {
  const [[first], [time]] = [caught, times]
  if (flow !== undefined || first === undefined || time === undefined) return flow
  const sum = sumOf(caught.map((one) => amountIn(one, first.unit)))
  return flowOf(quantity(sum.div(caught.length), first.unit), time)
}

/** Catches that a mean flow says nothing about. */
function catchesApart(caught: readonly Volume[]): Finding[] {
  const [first] = caught
  if (first === undefined) return []
  return tooVaried(averageRuns(caught.map((one) => amountIn(one, first.unit))))
}

/** A boom by one nozzle and its spacing, or by its whole flow and swath; solves for what is left out. */
export const boom: Run = (figures) => {
  const width = widthOf(figures)
  if (width === undefined) return asks('spacing', 'width')
  if (figures.spacing !== undefined && figures.width !== undefined)
    return { kind: 'asks', missing: ['spacing', 'width'], why: say('outputs.one-width') }
  return solve(figures, width)
}

/** One cluster for the whole swath: its flow goes with the swath. */
export const boomless: Run = (figures) => {
  if (figures.width === undefined) return asks('width', 'flow', 'speed')
  return solve(figures, { of: 'boom', swath: figures.width })
}

function solve(figures: Figures, width: Width): Tried {
  const { speed, output } = figures
  const flow = flowFrom(figures)
  if ([flow, speed, output].filter((one) => one === undefined).length > 1)
    return asks('flow', 'speed', 'output')
  const { form, other } = formsFor(figures, 'field')
  const given: BoomGiven = {
    width,
    ...(flow === undefined ? {} : { flow }),
    ...(speed === undefined ? {} : { speed }),
    ...(output === undefined ? {} : { output }),
  }
  const varied = figures.flow === undefined ? catchesApart(figures.caught) : []
  const units = figures.isMetric ? ({ flowUnit: 'L/min', speedUnit: 'km/h' } as const) : {}
  const solved = solveBoom(given, { form, ...units })
  const told = solved.ok ? { ...solved, findings: [...varied, ...solved.findings] } : solved
  return tell(told, (found) => {
    if (found.solved === 'output') return tellOutput(found.output, other)
    const figureTold = found.solved === 'speed' ? rounded(found.speed, 2) : found.flow
    return {
      title: say(`outputs.${found.solved}`, { [found.solved]: figureTold }),
      lines: [say('outputs.at-output', { output: sayOutput(found.output) })],
      facts: [{ name: found.solved, ...figure(figureTold) }],
      keep: null,
    }
  })
}

/** Catches of every nozzle against their mean; with the time the flow, with speed and spacing the output too. */
export const nozzles: Run = (figures) => {
  const { caught, tolerance, times, speed, spacing } = figures
  if (caught.length < 2) return asks('caught')
  const note = tolerance ?? usualTolerance.notePercent
  const limits = { notePercent: note, failPercent: Math.max(note, usualTolerance.failPercent) }
  const [time] = times
  return tell(testNozzles(caught, limits), ({ average, range: [low, high] }) => {
    const flow = time === undefined ? null : flowOf(average, time)
    const sprays = flow === null ? null : outputOf(figures, flow, speed, spacing)
    return {
      title: say('outputs.nozzles', { average }),
      lines: [
        say('outputs.nozzle-range', { low, high }),
        ...(flow === null ? [] : [say('outputs.nozzle-flow', { flow })]),
        ...(sprays === null ? [] : [say('outputs.nozzle-output', { output: sayOutput(sprays) })]),
        ...swathLines(spacing, caught),
      ],
      facts: [
        { name: 'nozzle_average', ...figure(average) },
        { name: 'nozzle_low', ...figure(low) },
        { name: 'nozzle_high', ...figure(high) },
        ...(flow === null ? [] : [{ name: 'flow', ...figure(flow) }]),
        ...(sprays === null ? [] : [{ name: 'output', ...figure(sayOutput(sprays)) }]),
      ],
      keep: sprays === null ? null : { kind: 'broadcast', ...sayOutput(sprays) },
    }
  })
}

function outputOf(figures: Figures, flow: Flow, speed: Figures['speed'], spacing: Length | undefined) {
  if (speed === undefined || spacing === undefined) return null
  const { form } = formsFor(figures, 'field')
  const found = solveBoom({ width: { of: 'nozzle', spacing }, flow, speed }, { form })
  return found.ok ? found.value.output : null
}

function swathLines(spacing: Length | undefined, caught: readonly Volume[]): Text[] {
  if (spacing === undefined) return []
  return [say('outputs.nozzle-swath', { swath: boomSwath(caught.length, spacing) })]
}

/** What a counted number of spots took, sprayed to wet. */
export const spots: Run = (figures) => {
  const { used, spots: count, ground } = figures
  if (used.length === 0 || count === undefined) return asks('used', 'spots', 'ground')
  const { form } = formsFor(figures, 'lawn')
  const result = calibrateSpots(used, count, { form, ...(ground === undefined ? {} : { spotArea: ground }) })
  return tell(result, ({ perSpot: exact, output, runs }) => {
    const perSpot = inSmall(exact)
    return {
      title: say('outputs.per-spot', { volume: perSpot }),
      lines: [
        say('outputs.spots-not-broadcast'),
        ...(output === null ? [] : [say('outputs.same', { output: sayOutput(output) })]),
        ...spreadLines(runs),
      ],
      facts: [
        { name: 'per_spot', ...figure(perSpot) },
        ...(output === null ? [] : [{ name: 'spot_output', ...figure(sayOutput(output)) }]),
        ...spreadFacts(runs),
      ],
      keep: { kind: 'spots', value: perSpot.value, unit: `${perSpot.unit}/spot` },
    }
  })
}

/** A spot takes ounces, not hundredths of a gallon. */
function inSmall(volume: Volume): Volume {
  const small = volume.unit === 'gal' || volume.unit === 'qt' ? 'fl oz' : volume.unit === 'L' ? 'mL' : null
  if (small === null || big(volume.value).gte(1)) return volume
  return quantity(amountIn(volume, small), small)
}
