import { big, decimalText } from '#src/quantity/big.ts'
import type { Rate, RateForm, Strength } from '#src/quantity/rate.ts'
import { isSameForm, withValue } from '#src/quantity/rate.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import { sayOutput, sayRate, sayStrength } from '#src/quantity/said.ts'
import type { Step } from '../worked.ts'
import { step } from '../worked.ts'
import type { Figures, Need, RateProblem } from './figures.ts'
import type { Base, Count, Measure, MeasureForm } from './measure.ts'
import { densityNumber, measureFormOf, measureOf, numberIn, outputNumber } from './measure.ts'

/** A rate said in another way, with the figures that were used on the way. */
export interface Converted {
  readonly rate: Rate
  readonly working: readonly Step[]
}

interface Way {
  readonly measure: Measure
  readonly working: readonly Step[]
}

type Walked = Result<Way, RateProblem>

/**
 * Any rate in any other form of the same kind: per area, per volume of mix, share of mix; as product, ai or ae.
 * Formulas F2, F26, F27 and F31 to F34 of the trade, all of them one multiplication or division by a figure.
 * @returns the rate, or the figure that is lacking
 */
export function convertRate(
  rate: Rate,
  form: RateForm,
  figures: Figures = {},
): Result<Converted, RateProblem> {
  if (isSameForm(rate, form)) return ok({ rate, working: [] })
  const walked = walk(measureOf(rate), measureFormOf(form), figures)
  if (!walked.ok) return walked
  const converted = withValue(form, numberIn(walked.value.measure, form))
  const result = step('rate.step.result', { from: sayRate(rate), to: sayRate(converted) })
  return ok({ rate: converted, working: [...walked.value.working, result] })
}

/** The same measure over another base, counted another way. */
export function convertMeasure(
  from: Measure,
  to: MeasureForm,
  figures: Figures,
): Result<Measure, RateProblem> {
  const walked = walk(from, to, figures)
  return walked.ok ? ok(walked.value.measure) : walked
}

function walk(from: Measure, to: MeasureForm, figures: Figures): Walked {
  if (countsActiveByVolume(from) || countsActiveByVolume(to)) return fail({ kind: 'ai-by-volume' })
  const start: Walked = ok({ measure: from, working: [] })
  const based = then(start, (way) => changeBase(way, to.base, figures))
  return then(based, (way) => changeCounted(way, to, figures))
}

function then(walked: Walked, go: (way: Way) => Walked): Walked {
  return walked.ok ? go(walked.value) : walked
}

function countsActiveByVolume({ of, count }: MeasureForm): boolean {
  return of !== 'product' && count === 'mL'
}

const lacks = (need: Need): Walked => fail({ kind: 'needs', need })

/** Square meters to milliliters of mix by the output, milliliters to grams of mix by the weight of the mix. */
function changeBase(way: Way, to: Base, figures: Figures): Walked {
  const { base } = way.measure
  if (base === to) return ok(way)
  if (base === 'm2' || to === 'm2') {
    const mixed = base === 'g' ? changeBase(way, 'mL', figures) : ok(way)
    return then(mixed, (inMix) =>
      then(acrossOutput(inMix, figures), (crossed) => changeBase(crossed, to, figures)),
    )
  }
  return acrossMixWeight(way, figures)
}

function acrossOutput({ measure, working }: Way, { output }: Figures): Walked {
  if (!output) return lacks('output')
  const factor = outputNumber(output)
  const isOnGround = measure.base === 'm2'
  const number = isOnGround ? measure.number.div(factor) : measure.number.times(factor)
  const used = step('rate.step.output', { output: sayOutput(output) })
  return ok({ measure: { ...measure, number, base: isOnGround ? 'mL' : 'm2' }, working: [...working, used] })
}

function acrossMixWeight({ measure, working }: Way, { mixDensity }: Figures): Walked {
  if (!mixDensity) return lacks('mix-density')
  const factor = densityNumber(mixDensity)
  const isByWeight = measure.base === 'g'
  const number = isByWeight ? measure.number.times(factor) : measure.number.div(factor)
  const used = step('rate.step.mix-density', { density: sayOutput(mixDensity) })
  return ok({ measure: { ...measure, number, base: isByWeight ? 'mL' : 'g' }, working: [...working, used] })
}

/** Between product, ai and ae the way leads through the product; between its weight and volume by its density. */
function changeCounted(way: Way, to: MeasureForm, figures: Figures): Walked {
  const { of } = way.measure
  if (of === to.of) return changeCount(way, to.count, figures)
  if (of !== 'product') {
    const product = toProduct(way, of, to.of === 'product' ? to.count : undefined, figures)
    return then(product, (next) => changeCounted(next, to, figures))
  }
  return fromProduct(way, to.of as 'ai' | 'ae', figures)
}

function changeCount({ measure, working }: Way, to: Count, { density }: Figures): Walked {
  if (measure.count === to) return ok({ measure, working })
  if (!density) return lacks('density')
  const factor = densityNumber(density)
  const number = measure.count === 'g' ? measure.number.div(factor) : measure.number.times(factor)
  return ok({
    measure: { ...measure, number, count: to },
    working: [...working, step('rate.step.density', { density: sayOutput(density) })],
  })
}

const countOfStrength = (strength: Strength): Count => (strength.kind === 'percent' ? 'g' : 'mL')

/** Grams of active in one g or mL of product. */
function activeShare(strength: Strength) {
  return strength.kind === 'percent' ? big(strength.value).div(100) : densityNumber(strength)
}

/** The strength that says it in the count wanted, so that no density is needed where the label spares it. */
function pickStrength(of: 'ai' | 'ae', count: Count | undefined, figures: Figures): Strength | undefined {
  const fitting = (figures.strengths ?? []).filter((one) => one.of === of && big(one.value).gt(0))
  return fitting.find((one) => countOfStrength(one) === count) ?? fitting[0]
}

function toProduct(way: Way, of: 'ai' | 'ae', count: Count | undefined, figures: Figures): Walked {
  const strength = pickStrength(of, count, figures)
  if (!strength) return lacks(`strength-${of}`)
  const number = way.measure.number.div(activeShare(strength))
  const used = step('rate.step.strength', { strength: sayStrength(strength) })
  return ok({
    measure: { ...way.measure, number, of: 'product', count: countOfStrength(strength) },
    working: [...way.working, used],
  })
}

function fromProduct(way: Way, of: 'ai' | 'ae', figures: Figures): Walked {
  const strength = pickStrength(of, way.measure.count, figures)
  if (!strength) return lacks(`strength-${of}`)
  const used = step('rate.step.strength', { strength: sayStrength(strength) })
  return then(changeCount(way, countOfStrength(strength), figures), ({ measure, working }) =>
    ok({
      measure: { ...measure, number: measure.number.times(activeShare(strength)), of, count: 'g' },
      working: [...working, used],
    }),
  )
}

/** The sentence that asks for the figure that is lacking, or says why there is no such rate. */
export function rateProblemStep(problem: RateProblem): Step {
  return problem.kind === 'needs' ? step(`rate.needs.${problem.need}`) : step('rate.ai-by-volume')
}

/** How a rate compares with another as a bare number: 1 is the same. */
export function rateRatio(rate: Rate, against: Rate, figures: Figures = {}): Result<string, RateProblem> {
  const same = convertRate(rate, against, figures)
  return same.ok ? ok(decimalText(big(same.value.rate.value).div(against.value))) : same
}
