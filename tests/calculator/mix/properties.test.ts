import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import { planJob } from '#src/calculator/mix/plan-job.ts'
import type { FillRequest, Tool } from '#src/calculator/mix/request.ts'
import { strengthOfMix } from '#src/calculator/mix/strength.ts'
import { convertRate } from '#src/calculator/rate/convert.ts'
import { big, compareNumbers, decimalText, sumOf } from '#src/quantity/big.ts'
import { amountIn, compareQuantities, convert, quantity } from '#src/quantity/quantity.ts'
import type { Output, Rate } from '#src/quantity/rate.ts'
import { areaRate, formOf, shareRate, volumeRate } from '#src/quantity/rate.ts'
import { rates } from '#tests/quantity/arbitraries.ts'
import { density, output, strength, sure } from '#tests/quantity/read.ts'

/** A number between two others in whole hundredths. */
const between = (least: number, most: number) =>
  fc.integer({ min: least * 100, max: most * 100 }).map((hundredths) => decimalText(`${hundredths}e-2`))

const THOUSAND = { value: '1', unit: '1000 ft2' } as const

const outputs: fc.Arbitrary<Output> = between(0.2, 5).map((value) => ({ value, unit: 'gal', per: THOUSAND }))
const fills = between(0.25, 300).map((value) => quantity(value, 'gal'))
const handFills = between(0.25, 4).map((value) => quantity(value, 'gal'))
const mixRates: fc.Arbitrary<Rate> = fc.oneof(
  between(0.01, 8).map((value) => areaRate(value, 'oz wt', THOUSAND)),
  between(0.05, 20).map((value) => areaRate(value, 'pt', { value: '1', unit: 'acre' })),
  between(0.05, 8).map((value) => areaRate(value, 'lb', { value: '1', unit: 'acre' })),
  between(0.1, 10).map((value) => volumeRate(value, 'lb', { value: '100', unit: 'gal' })),
  between(0.05, 5).map((value) => shareRate(value)),
)

const steps = fc.integer({ min: 1, max: 5000 }).map((hundredths) => decimalText(`${hundredths}e-2`))
const scales: fc.Arbitrary<Tool> = steps.map((step) => ({
  kind: 'scale',
  name: 'scale',
  step: quantity(step, 'g'),
}))
const cylinders: fc.Arbitrary<Tool> = steps.map((step) => ({
  kind: 'cylinder',
  name: 'cylinder',
  step: quantity(step, 'mL'),
}))
const tools = fc.array(fc.oneof(scales, cylinders), { minLength: 2, maxLength: 5 })
const marks = fc.constantFrom('0.05', '0.1', '0.25', '0.5', '1').map((value) => quantity(value, 'gal'))

const requests: fc.Arbitrary<FillRequest> = fc
  .record({ rate: mixRates, output: outputs, fill: fills })
  .map(({ rate, output, fill }) => ({ rate, figures: { output }, fill }))

function exactOf(request: FillRequest) {
  const outcome = planFill(request)
  if (outcome.outcome !== 'answer' || !outcome.mix.concentrate)
    throw new Error(`Expected an amount, got ${outcome.outcome}`)
  return outcome.mix.concentrate.exact
}

describe('a plan', () => {
  // It is kept under what was asked as JSON, and given out again for the same.
  test('depends on nothing that JSON leaves out', () => {
    const asked = fc
      .record({ request: requests, tools, mark: marks }, { requiredKeys: ['request'] })
      .map(({ request, ...rest }): FillRequest => ({ ...request, ...rest }))
    fc.assert(
      fc.property(asked, (request) => {
        expect(planFill(JSON.parse(JSON.stringify(request)))).toEqual(planFill(request))
      }),
    )
  })
})

describe('the amount', () => {
  test('is linear in volume', () => {
    fc.assert(
      fc.property(requests, fc.integer({ min: 2, max: 9 }), (request, times) => {
        const larger = { ...request, fill: quantity(big(request.fill.value).times(times), 'gal') }
        expect(compareNumbers(exactOf(larger).value, big(exactOf(request).value).times(times))).toBe(0)
      }),
    )
  })

  test('is the same whichever unit the volume comes in', () => {
    fc.assert(
      fc.property(
        requests,
        fc.constantFrom('qt' as const, 'fl oz' as const, 'L' as const),
        (request, unit) => {
          const other = exactOf({ ...request, fill: convert(request.fill, unit) })
          expect(compareQuantities(other, exactOf(request))).toBe(0)
        },
      ),
    )
  })

  test('of a top-up is what a fresh mix of the missing volume takes', () => {
    fc.assert(
      fc.property(requests, fc.integer({ min: 1, max: 99 }), (request, percent) => {
        const volume = quantity(big(request.fill.value).times(percent).div(100), 'gal')
        const topUp = exactOf({ ...request, inTank: { kind: 'same', volume } })
        const missing = quantity(big(request.fill.value).minus(volume.value), 'gal')
        expect(compareQuantities(topUp, exactOf({ ...request, fill: missing }))).toBe(0)
      }),
    )
  })

  test('brings a leftover of any other strength to the strength of a fresh mix', () => {
    fc.assert(
      fc.property(requests, outputs, fc.integer({ min: 1, max: 100 }), (request, before, percent) => {
        const volume = quantity(big(request.fill.value).times(percent).div(100), 'gal')
        const capacity = quantity(1_000_000, 'gal')
        const outcome = planFill({
          ...request,
          capacity,
          inTank: { kind: 'other', volume, rate: request.rate, output: before },
        })
        if (outcome.outcome !== 'answer') throw new Error(outcome.outcome)
        const count = exactCount(request)
        const held = sure(strengthOfMix(request.rate, { output: before }, count)).number.times(
          amountIn(volume, 'mL'),
        )
        const wanted = sure(strengthOfMix(request.rate, request.figures, count)).number.times(
          amountIn(outcome.mix.fillTo, 'mL'),
        )
        const added = outcome.mix.concentrate ? amountIn(outcome.mix.concentrate.exact, count) : big(0)
        expect(compareNumbers(held.plus(added), wanted)).toBe(0)
      }),
    )
  })
})

const exactCount = (request: FillRequest) => sure(strengthOfMix(request.rate, request.figures)).count

describe('loads', () => {
  test('add up to the job, in mix and in product', () => {
    fc.assert(
      fc.property(
        mixRates,
        outputs,
        between(100, 90_000),
        between(0.5, 60),
        (rate, output, ground, capacity) => {
          const outcome = planJob({
            rate,
            figures: { output },
            ground: quantity(ground, 'ft2'),
            capacity: quantity(capacity, 'gal'),
          })
          if (outcome.outcome !== 'answer') throw new Error(outcome.outcome)
          const { job } = outcome
          const mixed = sumOf(job.groups.map(({ count, mix }) => big(mix.fillTo.value).times(count)))
          expect(compareNumbers(mixed, big(ground).div(1000).times(output.value))).toBe(0)
          expect(compareNumbers(job.totalMix.value, job.neededMix.value)).toBe(0)
          const once = exactOf({ rate, figures: { output }, fill: job.neededMix })
          expect(compareQuantities(job.totalExact, once)).toBe(0)
          expect(compareQuantities(job.lastLoad, quantity(capacity, 'gal'))).not.toBe(1)
        },
      ),
    )
  })

  test('with marks cover the ground, each within the tank and on a mark or brim-full', () => {
    fc.assert(
      fc.property(
        mixRates,
        outputs,
        between(100, 20_000),
        between(1, 30),
        marks,
        (rate, output, ground, capacity, mark) => {
          const tank = quantity(capacity, 'gal')
          const outcome = planJob({
            rate,
            figures: { output },
            ground: quantity(ground, 'ft2'),
            capacity: tank,
            mark,
          })
          if (outcome.outcome !== 'answer') throw new Error(outcome.outcome)
          expect(compareQuantities(outcome.job.totalMix, outcome.job.neededMix)).not.toBe(-1)
          for (const { mix } of outcome.job.groups) {
            expect(compareQuantities(mix.fillTo, tank)).not.toBe(1)
            const onMark = compareNumbers(big(mix.fillTo.value).mod(mark.value), 0) === 0
            expect(onMark || compareQuantities(mix.fillTo, tank) === 0).toBe(true)
          }
        },
      ),
    )
  })
})

describe('measuring, whatever the steps of the tools', () => {
  const measured = fc.record({
    request: requests,
    tools,
    mark: fc.option(marks, { nil: undefined }),
    inTank: fc.option(fc.integer({ min: 1, max: 99 }), { nil: undefined }),
    ceiling: fc.option(fc.integer({ min: 1000, max: 1100 }), { nil: undefined }),
  })

  test('the proven rate never passes the maximum and stays within 5 percent', () => {
    let answers = 0
    fc.assert(
      fc.property(measured, ({ request, tools, mark, inTank, ceiling }) => {
        const volume = quantity(
          big(request.fill.value)
            .times(inTank ?? 0)
            .div(100),
          'gal',
        )
        const top = ceiling
          ? { ...request.rate, value: decimalText(big(request.rate.value).times(ceiling).div(1000)) }
          : request.rate
        const outcome = planFill({
          ...request,
          tools,
          ...(mark ? { mark } : {}),
          ...(inTank ? { inTank: { kind: 'same' as const, volume } } : {}),
          ...(ceiling ? { maxima: [[top]] } : {}),
        })
        if (outcome.outcome !== 'answer') return
        answers += 1
        const { mix } = outcome
        expect(compareNumbers(mix.rateApplied.value, top.value)).not.toBe(1)
        expect(big(mix.rateShare).minus(1).abs().lte('0.05')).toBe(true)
        const { concentrate } = mix
        if (concentrate?.tool)
          expect(big(concentrate.measured.value).mod(concentrate.tool.step.value).toFixed()).toBe('0')
      }),
      { numRuns: 500 },
    )
    expect(answers).toBeGreaterThan(200)
  })

  test('a dose below the step of every tool is a hold, never zero', () => {
    fc.assert(
      fc.property(requests, fc.integer({ min: 2, max: 1000 }), (request, times) => {
        const exact = exactOf(request)
        const count = exactCount(request)
        const step = quantity(big(amountIn(exact, count)).times(times), count)
        const tool: Tool = { kind: count === 'g' ? 'scale' : 'cylinder', name: 'coarse', step }
        expect(planFill({ ...request, tools: [tool] }).outcome).toBe('below-tool')
      }),
    )
  })

  test('what is proposed measures well when it is asked for', () => {
    let batches = 0
    fc.assert(
      fc.property(requests, handFills, tools, marks, (request, fill, tools, mark) => {
        const asked = { ...request, fill, tools, mark, capacity: quantity(4, 'gal') }
        const outcome = planFill(asked)
        if (outcome.outcome !== 'too-coarse' && outcome.outcome !== 'below-tool') return
        for (const proposal of outcome.proposals) {
          if (proposal.kind === 'batch') {
            batches += 1
            expect(planFill({ ...asked, fill: proposal.fillTo }).outcome).toBe('answer')
          }
          if (proposal.kind !== 'finer-tool') continue
          const kind = proposal.step.unit === 'g' ? 'scale' : 'cylinder'
          expect(planFill({ ...asked, tools: [{ kind, name: 'finer', step: proposal.step }] }).outcome).toBe(
            'answer',
          )
        }
      }),
      { numRuns: 400 },
    )
    expect(batches).toBeGreaterThan(20)
  })
})

describe('a rate said in another way', () => {
  const figures = {
    output: output('1.3 gal/1000 ft2'),
    strengths: [strength('4 lb ai/gal'), strength('3.1 lb ae/gal')],
    density: density('9.2 lb/gal'),
    mixDensity: density('8.34 lb/gal'),
  }

  test('comes back as it was', () => {
    fc.assert(
      fc.property(rates, rates, (from, like) => {
        const there = convertRate(from, formOf(like), figures)
        if (!there.ok) {
          expect(there.error.kind).toBe('ai-by-volume')
          return
        }
        const back = sure(convertRate(there.value.rate, formOf(from), figures)).rate
        expect(big(back.value).div(from.value).minus(1).abs().lt('1e-30')).toBe(true)
      }),
    )
  })
})
