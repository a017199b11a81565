import { big } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import type { Rate, RateForm } from '#src/quantity/rate.ts'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import { sayRate } from '#src/quantity/said.ts'
import type { AmountUnit } from '#src/quantity/units.ts'
import type { Ceiling, CeilingCheck } from '../rate/ceilings.ts'
import { checkCeiling } from '../rate/ceilings.ts'
import { convertRate, rateProblemStep } from '../rate/convert.ts'
import type { RateProblem } from '../rate/figures.ts'
import type { Step } from '../worked.ts'
import { step } from '../worked.ts'
import type { MixProblem, NoMix } from './outcome.ts'
import type { MixBasis, Volume } from './request.ts'
import type { MixStrength } from './strength.ts'
import { productUnitFor, proveRate, strengthOfMix } from './strength.ts'
import { isSoundTool } from './tool.ts'

/** Everything about a mix that does not depend on how full the tank gets. */
export interface MixContext {
  readonly basis: MixBasis
  readonly strength: MixStrength
  readonly ceilings: readonly Ceiling[]
  /** The unit in which amounts of product are told. */
  readonly unit: AmountUnit
  /** The rate as product, when it was asked for as ai or ae. */
  readonly productRate: Rate
  readonly productWorking: readonly Step[]
}

/** Checks what was asked for before anything is measured: figures, tools, and the rate against every limit. */
export function openMix(basis: MixBasis, fill: Volume): Result<MixContext, NoMix> {
  const unsound = basis.tools?.find((tool) => !isSoundTool(tool))
  if (unsound) return fail(mixProblem({ kind: 'unsound-tool', tool: unsound.name }))
  if (big(fill.value).lte(0)) return fail(mixProblem({ kind: 'nothing-asked' }))
  const strength = strengthOfMix(basis.rate, basis.figures)
  if (!strength.ok) return fail(mixProblem(strength.error))
  const unit = productUnitFor(basis.rate, strength.value.count, fill)
  const product = convertRate(basis.rate, productForm(basis.rate, unit), basis.figures)
  if (!product.ok) return fail(mixProblem(product.error))
  const maxima = (basis.maxima ?? []).filter((ceiling) => ceiling.length > 0)
  const ceilings = maxima.length > 0 ? maxima : [[basis.rate]]
  const context = {
    basis,
    strength: strength.value,
    ceilings,
    unit,
    productRate: product.value.rate,
    productWorking: product.value.working,
  }
  const refused = refuseRate(basis.rate, context)
  return refused ? fail(refused) : ok(context)
}

function productForm(rate: Rate, unit: AmountUnit): RateForm {
  if (rate.kind === 'share' || rate.of === 'product') return rate
  return { ...rate, of: 'product', unit }
}

export function mixProblem(problem: MixProblem): NoMix {
  return { outcome: 'problem', problem, reason: problemStep(problem) }
}

function problemStep(problem: MixProblem): Step {
  switch (problem.kind) {
    case 'needs':
    case 'ai-by-volume':
      return rateProblemStep(problem)
    case 'in-tank-above-fill':
      return step('mix.problem.in-tank-above-fill', { inTank: problem.inTank, fill: problem.fill })
    case 'in-tank-above-capacity':
      return step('mix.problem.in-tank-above-capacity', {
        inTank: problem.inTank,
        capacity: problem.capacity,
      })
    case 'unsound-tool':
      return step('mix.problem.unsound-tool', { tool: problem.tool })
    case 'nothing-asked':
      return step('mix.problem.nothing-asked')
  }
}

/** A rate against all limits; the first that stands in the way is the answer. */
export function refuseRate(rate: Rate, context: Pick<MixContext, 'ceilings' | 'basis'>): NoMix | undefined {
  for (const check of checksOf(rate, context)) {
    if (check.verdict === 'above')
      return {
        outcome: 'above-maximum',
        check,
        reason: step('mix.above-maximum', { rate: sayRate(rate), maximum: sayRate(check.decides) }),
      }
    if (check.verdict === 'disagrees')
      return { outcome: 'maxima-disagree', check, reason: disagreeStep(rate, check) }
    if (check.verdict === 'unknown') return mixProblem(unknownProblem(check.need))
  }
  return undefined
}

function unknownProblem(need: Extract<RateProblem, { kind: 'needs' }>['need'] | undefined): MixProblem {
  return need ? { kind: 'needs', need } : { kind: 'ai-by-volume' }
}

function disagreeStep(rate: Rate, check: Exclude<CeilingCheck, { verdict: 'unknown' }>): Step {
  const other =
    check.lines.find((line) => line.agreement === 'disagrees' && line.isAbove)?.printed ?? check.decides
  return step('mix.maxima-disagree', {
    rate: sayRate(rate),
    one: sayRate(check.decides),
    other: sayRate(other),
  })
}

export function checksOf(
  rate: Rate,
  context: Pick<MixContext, 'ceilings' | 'basis'>,
): readonly CeilingCheck[] {
  return context.ceilings.map((ceiling) => checkCeiling(rate, ceiling, context.basis.figures))
}

/** Would so much product in so much mix stay within every limit? */
export function staysWithin(product: Quantity<AmountUnit>, mix: Volume, context: MixContext): boolean {
  const proven = proveRate(product, mix, context.basis.rate, context.basis.figures)
  return proven.ok && checksOf(proven.value, context).every(({ verdict }) => verdict === 'within')
}
