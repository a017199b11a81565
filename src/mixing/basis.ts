import type { JobOutcome, MixOutcome } from '#src/calculator/mix/outcome.ts'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import { planJob } from '#src/calculator/mix/plan-job.ts'
import type { Adjuvant, InTank, MixBasis, Tool } from '#src/calculator/mix/request.ts'
import type { Reader } from '#src/conversation/reader.ts'
import type { Tools } from '#src/desk/command.ts'
import { strengthOf } from '#src/label/figures.ts'
import { rememberEqual } from '#src/memory/remember.ts'
import type { Output, Rate, Strength } from '#src/quantity/rate.ts'
import { toolsFor, typedTool } from './measuring-tools.ts'
import type { MixOptions } from './options.ts'
import type { Ready } from './ready.ts'
import type { Named } from './resolve.ts'

/** What the calculator needs of this mix: strengths, output, tools, marks, what is in the tank. */
export function basisOf(ready: Ready, adjuvants: Adjuvant[], read: Reader, tools: Tools): MixBasis {
  const { given, named, rate, output, volumes } = ready
  const entry = named.product?.live.body
  const strengths: Strength[] =
    entry?.actives.flatMap(({ strength, acid }) => [
      strengthOf(strength),
      ...(acid === undefined ? [] : [strengthOf(acid)]),
    ]) ?? []
  const typedStrength = read.strength('strength', given.strength)
  const inTank = inTankOf(ready, read)
  const marks = volumes.marks
  return {
    rate,
    figures: {
      ...(strengths.length === 0 && typedStrength === undefined
        ? {}
        : { strengths: [...(typedStrength ? [typedStrength] : []), ...strengths] }),
      ...(output === undefined ? {} : { output }),
    },
    ...(adjuvants.length === 0 ? {} : { adjuvants }),
    tools: usableTools(given, named, read, tools),
    ...(volumes.capacity === undefined ? {} : { capacity: volumes.capacity }),
    ...(marks === undefined ? {} : { mark: marks }),
    ...(inTank === undefined ? {} : { inTank }),
    usualOutput: USUAL_OUTPUT,
  }
}

/** Common practice, no source: a rate per 1,000 ft² is often read as a rate per gallon, which is true at this output. */
const USUAL_OUTPUT: Output = { value: '1', unit: 'gal', per: { value: '1000', unit: 'ft2' } }

function inTankOf({ given, rate, volumes }: Ready, read: Reader): InTank | undefined {
  const volume = volumes.inTank
  const output = read.output('in_tank_output', given.in_tank_output)
  const other = read.rate('in_tank_rate', given.in_tank_rate)
  if (volume === undefined) return undefined
  if (output === undefined && other === undefined) return { kind: 'same', volume }
  return { kind: 'other', volume, rate: other ?? rate, ...(output === undefined ? {} : { output }) }
}

/** The scale that was typed; else the crew's tools and this product's own scoop. */
function usableTools(given: MixOptions, { product }: Named, read: Reader, { crew }: Tools): Tool[] {
  const scale = read.quantity('scale', given.scale, { expect: ['mass', 'volume'] })
  return scale === undefined ? toolsFor(product?.live.body, crew) : [typedTool(scale)]
}

/** The same tank is filled many times a day; its plan holds up to some ten kilobytes. */
const MOST_PLANS = 200
const fillAgain = rememberEqual(planFill, MOST_PLANS)
const jobAgain = rememberEqual(planJob, MOST_PLANS)

/** One filling, or the whole job where only the ground is given. */
export function plan(ready: Ready, basis: MixBasis): MixOutcome | JobOutcome {
  const { volumes } = ready
  if (volumes.ground !== undefined && volumes.fill === undefined && volumes.capacity !== undefined)
    return jobAgain({ ...basis, ground: volumes.ground, capacity: volumes.capacity })
  const fill = volumes.fill ?? volumes.capacity
  if (fill === undefined) throw new RangeError('A mix needs a volume')
  return fillAgain({ ...basis, fill, ...(volumes.ground === undefined ? {} : { ground: volumes.ground }) })
}

export const isJob = (outcome: MixOutcome | JobOutcome): outcome is JobOutcome => 'job' in outcome

/** The rate that the rounded amounts give; null when there is no answer. */
export function appliedOf(outcome: MixOutcome | JobOutcome): Rate | null {
  if (outcome.outcome !== 'answer') return null
  return 'job' in outcome ? outcome.job.lastMix.rateApplied : outcome.mix.rateApplied
}
