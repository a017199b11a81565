import { outputAtSpeed, speedForOutput } from '#src/calculator/calibrate/boom.ts'
import type { Pressure } from '#src/calculator/calibrate/measured.ts'
import {
  flowAtPressure,
  outputAtPressure,
  pressureForFlow,
  pressureForOutput,
} from '#src/calculator/calibrate/pressure.ts'
import { measureSpeed } from '#src/calculator/calibrate/speed.ts'
import { say } from '#src/conversation/text.ts'
import type { Output } from '#src/quantity/rate.ts'
import { sayOutput } from '#src/quantity/said.ts'
import {
  asks,
  type Found,
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
import type { Figures, Wanted } from './read.ts'

/** Speed from distance and time, several runs averaged. */
export const speed: Run = ({ distances, times, speedUnit, isMetric }) => {
  const runs = times.flatMap((time, at) => {
    const distance = distances[at] ?? distances[0]
    return distance === undefined ? [] : [{ distance, time }]
  })
  if (runs.length === 0) return asks('distance', 'time')
  const unit = speedUnit ?? (isMetric ? 'km/h' : 'mph')
  return tell(measureSpeed(runs, { unit }), ({ speed: exact, runs: all }) => {
    const told = rounded(exact, 2)
    return {
      title: say('outputs.speed', { speed: told }),
      lines: spreadLines(all),
      facts: [{ name: 'speed', ...figure(told) }, ...spreadFacts(all)],
      keep: null,
    }
  })
}

/** The same tip at another pressure, or the pressure for another flow. */
export const pressure: Run = (figures) => {
  const { flow, output, pressure: now, to } = figures
  if (now !== undefined && flow === undefined && output !== undefined && to !== undefined)
    return ofOutput(figures, output, now, to)
  if (flow === undefined || now === undefined) return asks('flow', 'pressure', 'to')
  if (to?.kind === 'pressure')
    return tell(flowAtPressure(flow, now, to.value), (found) => ({
      title: say('outputs.flow', { flow: found }),
      lines: [],
      facts: [{ name: 'flow', ...figure(found) }],
      keep: null,
    }))
  if (to?.kind !== 'flow') return asks('to')
  return tell(pressureForFlow(now, flow, to.value), tellPressure)
}

/** What an output becomes with the pressure, or the pressure for another output; the speed stays. */
function ofOutput(figures: Figures, output: Output, now: Pressure, to: Wanted): Tried {
  if (to.kind === 'output') return tell(pressureForOutput(now, output, to.value), tellPressure)
  if (to.kind !== 'pressure') return asks('to')
  const { other } = formsFor({ ...figures, form: { unit: output.unit, per: output.per } }, 'field')
  return tell(outputAtPressure(output, now, to.value), (found) => ({
    ...tellOutput(found, other),
    keep: null,
  }))
}

const tellPressure = (found: Pressure): Found => ({
  title: say('outputs.pressure', { pressure: rounded(found, 1) }),
  lines: [],
  facts: [{ name: 'pressure', ...figure(rounded(found, 1)) }],
  keep: null,
})

/** The same tips and pressure at another speed, or the speed for another output. */
export const pace: Run = (figures) => {
  const { output, speed: now, to } = figures
  if (output === undefined || now === undefined) return asks('output', 'speed', 'to')
  if (to?.kind === 'speed') {
    const other = formsFor({ ...figures, form: { unit: output.unit, per: output.per } }, 'field').other
    return tell(outputAtSpeed(output, now, to.value), (found) => ({
      ...tellOutput(found, other),
      keep: null,
    }))
  }
  if (to?.kind !== 'output') return asks('to')
  return tell(speedForOutput(now, output, to.value), (found) => {
    const told = rounded(found, 2)
    return {
      title: say('outputs.speed', { speed: told }),
      lines: [say('outputs.at-output', { output: sayOutput(to.value) })],
      facts: [{ name: 'speed', ...figure(told) }],
      keep: null,
    }
  })
}
