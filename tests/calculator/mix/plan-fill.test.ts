import { describe, expect, test } from 'vitest'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import { area, mass, output, rate, strength, volume } from '#tests/quantity/read.ts'
import { cylinderOf, fill, fillRequest, noMixOf, scaleOf } from './mixes.ts'

describe('an empty tank', () => {
  test('2 gallons at one gallon per 1,000 ft2 take 0.226 oz (common practice, no source)', () => {
    const mix = fill()
    expect(mix.concentrate?.measured).toEqual({ value: '0.226', unit: 'oz wt' })
    expect(mix.fillTo).toEqual({ value: '2', unit: 'gal' })
    expect(mix.areaCovered).toEqual({ value: '2000', unit: 'ft2' })
    expect(mix.rateApplied).toEqual(rate('0.113 oz wt/1000 ft2'))
    expect(mix.rateShare).toBe('1')
  })

  test('who puts out two gallons per 1,000 ft2 needs half as much per gallon (common practice, no source)', () => {
    const mix = fill({ figures: { output: output('2 gal/1000 ft2') }, usualOutput: output('1 gal/1000 ft2') })
    expect(mix.concentrate?.measured).toEqual({ value: '0.113', unit: 'oz wt' })
    expect(mix.trap).toEqual({ yours: rate('0.0565 oz wt/gal'), usual: rate('0.113 oz wt/gal') })
    expect(mix.notes.map(({ id }) => id)).toContain('mix.note.output-trap')
  })

  test('who puts out what is usual is told nothing about it', () => {
    expect(fill({ usualOutput: output('43.56 gal/acre') }).trap).toBeUndefined()
  })

  test('an output is a question where the rate is per area', () => {
    const { problem, reason } = noMixOf(planFill(fillRequest({ figures: {} })), 'problem')
    expect(problem).toEqual({ kind: 'needs', need: 'output' })
    expect(reason.id).toBe('rate.needs.output')
  })

  test('ai becomes product by the strength of the label', () => {
    const mix = fill({
      rate: rate('0.5 lb ai/acre'),
      figures: { output: output('40 gal/acre'), strengths: [strength('2 lb ai/gal')] },
      fill: volume('300 gal'),
    })
    expect(mix.concentrate?.exact).toEqual({ value: '240', unit: 'fl oz' })
    expect(mix.rateApplied).toEqual(rate('0.5 lb ai/acre'))
  })

  test('a dry product with a percentage is weighed', () => {
    const request = { rate: rate('3 lb ai/acre'), fill: volume('400 gal'), tools: [scaleOf('1 lb')] }
    const mix = fill({
      ...request,
      figures: { output: output('20 gal/acre'), strengths: [strength('70 % ai')] },
    })
    expect(mix.concentrate?.measured).toEqual({ value: '85', unit: 'lb' })
  })
})

describe('mix in the tank already', () => {
  test('0.5 gal of the same mix, 1.3 gal/1000 ft2, a 0.1 g scale: 3.6 g (common practice, no source)', () => {
    const mix = fill({
      figures: { output: output('1.3 gal/1000 ft2') },
      inTank: { kind: 'same', volume: volume('0.5 gal') },
      tools: [scaleOf('0.1 g')],
    })
    expect(mix.concentrate?.measured).toEqual({ value: '3.6', unit: 'g' })
    expect(mix.fillTo).toEqual({ value: '2', unit: 'gal' })
    expect(mix.working.map(({ id }) => id)).toEqual([
      'mix.step.fresh',
      'mix.step.area',
      'mix.step.on-area',
      'mix.step.rounded',
      'mix.step.proof',
    ])
  })

  test('made for one gallon, used at two: add none, 3 gallons, which 2 do not hold (common practice, no source)', () => {
    const held = noMixOf(
      planFill(
        fillRequest({
          figures: { output: output('2 gal/1000 ft2') },
          inTank: {
            kind: 'other',
            volume: volume('1.5 gal'),
            rate: rate('0.113 oz wt/1000 ft2'),
            output: output('1 gal/1000 ft2'),
          },
        }),
      ),
      'not-fit',
    )
    expect(held.addNone).toBe(true)
    expect(held.fillTo).toEqual({ value: '3', unit: 'gal' })
    expect(held.capacity).toEqual({ value: '2', unit: 'gal' })
    expect(held.proposals).toEqual([
      { kind: 'split-leftover', keep: volume('1 gal'), fillTo: volume('2 gal'), setAside: volume('0.5 gal') },
    ])
  })

  test('the same leftover in a larger tank is filled up with water', () => {
    const mix = fill({
      figures: { output: output('2 gal/1000 ft2') },
      capacity: volume('4 gal'),
      inTank: {
        kind: 'other',
        volume: volume('1.5 gal'),
        rate: rate('0.113 oz wt/1000 ft2'),
        output: output('1 gal/1000 ft2'),
      },
    })
    expect(mix.concentrate).toBeUndefined()
    expect(mix.fillTo).toEqual({ value: '3', unit: 'gal' })
    expect(mix.rateShare).toBe('1')
    expect(mix.notes).toEqual([{ id: 'mix.note.add-none', with: { fill: volume('3 gal') } }])
  })

  test('a weaker leftover gets what is missing', () => {
    const mix = fill({
      inTank: {
        kind: 'other',
        volume: volume('1 gal'),
        rate: rate('0.113 oz wt/1000 ft2'),
        output: output('2 gal/1000 ft2'),
      },
    })
    expect(mix.concentrate?.exact).toEqual({ value: '0.1695', unit: 'oz wt' })
    expect(mix.rateShare).toBe('1')
  })

  test('a leftover that is right for the fill as it stands needs nothing', () => {
    const mix = fill({
      inTank: {
        kind: 'other',
        volume: volume('1 gal'),
        rate: rate('0.226 oz wt/1000 ft2'),
        output: output('1 gal/1000 ft2'),
      },
    })
    expect(mix.concentrate).toBeUndefined()
    expect(mix.fillTo).toEqual(volume('2 gal'))
  })

  test('a tank that is full of the same mix is ready', () => {
    const mix = fill({ inTank: { kind: 'same', volume: volume('2 gal') } })
    expect(mix.concentrate).toBeUndefined()
    expect(mix.notes).toEqual([{ id: 'mix.note.ready', with: { volume: volume('2 gal') } }])
  })

  test('more in the tank than asked for is said, and so is more than it holds', () => {
    const inTank = { kind: 'same', volume: volume('3 gal') } as const
    expect(noMixOf(planFill(fillRequest({ inTank })), 'problem').problem.kind).toBe('in-tank-above-fill')
    const tight = fillRequest({ inTank, capacity: volume('2.5 gal') })
    expect(noMixOf(planFill(tight), 'problem').problem.kind).toBe('in-tank-above-capacity')
  })

  test('nothing in the tank is an empty tank', () => {
    expect(
      fill({ inTank: { kind: 'same', volume: { value: '0', unit: 'gal' } } }).concentrate?.exact.value,
    ).toBe('0.226')
  })
})

describe('marks of the tank come first', () => {
  test.each([
    ['1.9 gal', '0.25 gal', '2', '0.226'],
    ['1.86 gal', '0.25 gal', '1.75', '0.19775'],
    ['0.1 gal', '0.25 gal', '0.25', '0.02825'],
    ['3.9 gal', '0.5 gal', '4', '0.452'],
  ])('%s on marks of %s is filled to %s gal, and the product follows', (asked, mark, filled, exact) => {
    const mix = fill({ fill: volume(asked), mark: volume(mark), capacity: volume('4 gal') })
    expect(mix.fillTo).toEqual({ value: filled, unit: 'gal' })
    expect(mix.concentrate?.exact).toEqual({ value: exact, unit: 'oz wt' })
  })

  test('what the tank does not hold is held', () => {
    const held = noMixOf(
      planFill(fillRequest({ fill: volume('5 gal'), capacity: volume('4 gal') })),
      'not-fit',
    )
    expect(held).toMatchObject({ addNone: false, fillTo: volume('5 gal'), capacity: volume('4 gal') })
  })

  test('a mark is never below what is in the tank', () => {
    const mix = fill({
      fill: volume('1.1 gal'),
      mark: volume('0.5 gal'),
      capacity: volume('4 gal'),
      inTank: { kind: 'same', volume: volume('1.05 gal') },
    })
    expect(mix.fillTo).toEqual(volume('1.5 gal'))
  })
})

describe('rounding to the tool', () => {
  test('a typed rate is its own ceiling: always down', () => {
    expect(fill({ tools: [scaleOf('0.1 g')] }).concentrate?.measured).toEqual({ value: '6.4', unit: 'g' })
    expect(fill({ fill: volume('3 gal'), tools: [scaleOf('0.1 g')] }).concentrate?.measured).toEqual({
      value: '9.6',
      unit: 'g',
    })
    expect(fill({ fill: volume('1.7 gal'), tools: [scaleOf('0.1 g')] }).concentrate?.measured).toEqual({
      value: '5.4',
      unit: 'g',
    })
  })

  test('below a printed maximum the nearest step is taken, even upwards', () => {
    const mix = fill({
      fill: volume('1.2 gal'),
      tools: [scaleOf('0.1 g')],
      maxima: [[rate('0.2 oz wt/1000 ft2')]],
    })
    expect(mix.concentrate?.exact.value).toBe('0.1356')
    expect(mix.concentrate?.measured).toEqual({ value: '3.8', unit: 'g' })
    expect(
      fill({ fill: volume('1.23 gal'), tools: [scaleOf('0.1 g')], maxima: [[rate('0.2 oz wt/1000 ft2')]] })
        .concentrate?.measured.value,
    ).toBe('3.9')
  })

  test('never up past the maximum', () => {
    const mix = fill({
      fill: volume('1.23 gal'),
      tools: [scaleOf('0.1 g')],
      maxima: [[rate('0.1131 oz wt/1000 ft2')]],
    })
    expect(mix.concentrate?.exact.value).toBe('0.13899')
    expect(mix.concentrate?.measured).toEqual({ value: '3.9', unit: 'g' })
  })

  test('up where down would fall below the lowest rate and the maximum allows it', () => {
    const rounded = {
      fill: volume('1.2 gal'),
      tools: [scaleOf('0.1 g')],
      maxima: [[rate('0.2 oz wt/1000 ft2')]],
    }
    expect(fill({ ...rounded, lowest: rate('0.113 oz wt/1000 ft2') }).concentrate?.measured.value).toBe('3.9')
  })

  test('what stays below the lowest rate is said', () => {
    const mix = fill({ tools: [scaleOf('0.1 g')], lowest: rate('0.113 oz wt/1000 ft2') })
    expect(mix.notes.map(({ id }) => id)).toEqual(['mix.note.below-lowest'])
  })

  test('more than 5 percent off is no answer but a proposal that measures well', () => {
    const request = fillRequest({
      fill: volume('0.5 gal'),
      tools: [scaleOf('1 g')],
      capacity: volume('2 gal'),
      mark: volume('0.25 gal'),
    })
    const held = noMixOf(planFill(request), 'too-coarse')
    expect(held.measured).toEqual({ value: '1', unit: 'g' })
    expect(held.proposals).toEqual([
      { kind: 'finer-tool', step: mass('0.05 g') },
      { kind: 'batch', fillTo: volume('1.25 gal'), concentrate: mass('4 g') },
    ])
    expect(fill({ ...request, tools: [scaleOf('0.05 g')] }).concentrate?.measured.unit).toBe('g')
    expect(fill({ ...request, fill: volume('1.25 gal') }).concentrate?.measured.value).toBe('4')
  })

  test('exactly 5 percent off is still an answer', () => {
    const coarse = { rate: rate('2 g/1000 ft2'), fill: volume('1 gal') }
    expect(fill({ ...coarse, tools: [scaleOf('1.9 g')] }).rateShare).toBe('0.95')
    expect(
      noMixOf(planFill(fillRequest({ ...coarse, tools: [scaleOf('1.89 g')] })), 'too-coarse').shift,
    ).toBe('0.055')
  })

  test('a dose below one step is a hold, never zero', () => {
    const held = noMixOf(
      planFill(fillRequest({ fill: volume('0.25 gal'), tools: [scaleOf('1 g')] })),
      'below-tool',
    )
    expect(held.step).toEqual(mass('1 g'))
    expect(held.reason.id).toBe('mix.below-tool')
    expect(held.proposals.map(({ kind }) => kind)).toEqual(['finer-tool', 'batch'])
  })
})

describe('the right tool', () => {
  const liquid = { rate: rate('1 fl oz/1000 ft2'), fill: volume('2 gal') }

  test('the finest cylinder that holds the amount', () => {
    const tools = [cylinderOf('10 mL', '1 L'), cylinderOf('1 mL', '100 mL'), cylinderOf('0.2 mL', '10 mL')]
    const mix = fill({ ...liquid, tools })
    expect(mix.concentrate?.tool?.name).toBe('1 mL cylinder')
    expect(mix.concentrate?.measured).toEqual({ value: '59', unit: 'mL' })
    expect(mix.concentrate?.inRateUnit.unit).toBe('fl oz')
  })

  test('where none holds it the largest is filled several times', () => {
    const mix = fill({
      ...liquid,
      fill: volume('4 gal'),
      tools: [cylinderOf('1 mL', '50 mL'), cylinderOf('0.1 mL', '10 mL')],
    })
    expect(mix.concentrate).toMatchObject({ measured: { value: '118', unit: 'mL' }, fillings: 3 })
    expect(mix.notes.map(({ id }) => id)).toEqual(['mix.note.fillings'])
  })

  test('a finer tool steps in where the first is too coarse', () => {
    const tools = [scaleOf('5 g'), scaleOf('0.1 g', '5 g')]
    const mix = fill({ fill: volume('2 gal'), tools })
    expect(mix.concentrate?.tool?.name).toBe('0.1 g scale')
    expect(mix.concentrate?.fillings).toBe(2)
  })

  test('a dry product is never measured by volume unless the weight of its scoop is known', () => {
    const spoon = { kind: 'spoon', name: 'teaspoon', step: volume('1 tsp') } as const
    const held = noMixOf(planFill(fillRequest({ tools: [spoon, cylinderOf('1 mL')] })), 'no-tool')
    expect(held.reason.id).toBe('mix.no-tool.dry')
    const scoop = { kind: 'scoop', name: 'white scoop', step: volume('1 tsp'), holds: mass('1.6 g') } as const
    const mix = fill({ tools: [scoop] })
    expect(mix.concentrate).toMatchObject({ measured: { value: '6.4', unit: 'g' }, scoops: 4 })
  })

  test('weighing goes before scooping', () => {
    const scoop = { kind: 'scoop', name: 'white scoop', step: volume('1 tsp'), holds: mass('1.6 g') } as const
    expect(fill({ tools: [scoop, scaleOf('0.1 g')] }).concentrate?.tool?.kind).toBe('scale')
  })

  test('a liquid is not weighed', () => {
    expect(
      noMixOf(planFill(fillRequest({ ...liquid, tools: [scaleOf('0.1 g')] })), 'no-tool').reason.id,
    ).toBe('mix.no-tool.liquid')
  })

  test('a scale that steps in volume is a wrong setting', () => {
    const wrong = { kind: 'scale', name: 'odd scale', step: volume('1 mL') } as const
    expect(noMixOf(planFill(fillRequest({ tools: [wrong] })), 'problem').problem).toEqual({
      kind: 'unsound-tool',
      tool: 'odd scale',
    })
  })
})

describe('strengths of the mix itself', () => {
  test('0.5 % v/v in 2 gallons, and what it becomes on the ground (F27, F40)', () => {
    const mix = fill({ rate: rate('0.5 % v/v') })
    expect(mix.concentrate?.exact).toEqual({ value: '1.28', unit: 'fl oz' })
    expect(mix.rateOnGround).toEqual(rate('0.64 fl oz/1000 ft2'))
  })

  test('without an output the strength stands alone', () => {
    const mix = fill({ rate: rate('0.5 % v/v'), figures: {} })
    expect(mix.concentrate?.exact).toEqual({ value: '1.28', unit: 'fl oz' })
    expect(mix.rateOnGround).toBeUndefined()
    expect(mix.areaCovered).toBeUndefined()
  })

  test('wetter spraying puts more on the ground, and the maximum per area sees it', () => {
    const maxima = [[rate('1 fl oz/1000 ft2')]]
    const spot = { rate: rate('0.5 % v/v'), maxima }
    expect(fill(spot).ceilings[0]?.verdict).toBe('within')
    const wet = fillRequest({ ...spot, figures: { output: output('2 gal/1000 ft2') } })
    const refused = noMixOf(planFill(wet), 'above-maximum')
    expect(refused.reason).toEqual({
      id: 'mix.above-maximum',
      with: { rate: { value: '0.5', unit: '% v/v' }, maximum: { value: '1', unit: 'fl oz/1000 ft2' } },
    })
  })

  test('a maximum per area cannot be checked without the output: that is asked', () => {
    const request = fillRequest({
      rate: rate('0.5 % v/v'),
      figures: {},
      maxima: [[rate('1 fl oz/1000 ft2')]],
    })
    expect(noMixOf(planFill(request), 'problem').problem).toEqual({ kind: 'needs', need: 'output' })
  })

  test('metric asks are told in metric', () => {
    const mix = fill({ rate: rate('0.5 % v/v'), fill: volume('10 L'), figures: {} })
    expect(mix.concentrate?.exact).toEqual({ value: '50', unit: 'mL' })
  })
})

describe('limits', () => {
  test('a rate above its maximum is refused before anything is measured', () => {
    const request = fillRequest({
      rate: rate('0.114 oz wt/1000 ft2'),
      maxima: [[rate('0.113 oz wt/1000 ft2')]],
    })
    expect(noMixOf(planFill(request), 'above-maximum').check.verdict).toBe('above')
  })

  test('every one of several limits must hold', () => {
    const maxima = [[rate('0.2 oz wt/1000 ft2')], [rate('4 oz wt/acre')]]
    expect(noMixOf(planFill(fillRequest({ maxima })), 'above-maximum').reason.with).toMatchObject({
      maximum: { value: '4', unit: 'oz wt/acre' },
    })
  })

  test('a printed pair that differs by rounding is shown, not refused', () => {
    const mix = fill({
      rate: rate('0.115 oz wt/1000 ft2'),
      maxima: [[rate('0.115 oz wt/1000 ft2'), rate('5 oz wt/acre')]],
    })
    expect(mix.notes).toEqual([
      {
        id: 'mix.note.printed-pair',
        with: {
          decides: { value: '0.115', unit: 'oz wt/1000 ft2' },
          other: { value: '5', unit: 'oz wt/acre' },
        },
      },
    ])
  })

  test('printed numbers that really contradict each other stop the answer', () => {
    const maxima = [[rate('0.113 oz wt/1000 ft2'), rate('4 oz wt/acre')]]
    expect(noMixOf(planFill(fillRequest({ maxima })), 'maxima-disagree').reason.id).toBe(
      'mix.maxima-disagree',
    )
  })
})

describe('what goes along', () => {
  test('an adjuvant follows the mix that is newly made (F28)', () => {
    const adjuvants = [{ name: 'surfactant', rate: rate('0.25 % v/v') }]
    const mix = fill({ adjuvants, inTank: { kind: 'same', volume: volume('0.5 gal') } })
    expect(mix.adjuvants).toMatchObject([{ name: 'surfactant', exact: { value: '0.48', unit: 'fl oz' } }])
  })

  test('an adjuvant that cannot be measured holds the answer', () => {
    const adjuvants = [{ name: 'surfactant', rate: rate('0.25 % v/v') }]
    const request = fillRequest({ adjuvants, tools: [scaleOf('0.1 g'), cylinderOf('50 mL')] })
    expect(noMixOf(planFill(request), 'below-tool').of).toBe('surfactant')
  })

  test('a tank with nothing new in it takes no adjuvant', () => {
    const adjuvants = [{ name: 'surfactant', rate: rate('0.25 % v/v') }]
    expect(fill({ adjuvants, inTank: { kind: 'same', volume: volume('2 gal') } }).adjuvants).toEqual([])
  })

  test('what will be left over is foreseen, with what would be enough', () => {
    const mix = fill({ ground: area('1500 ft2') })
    expect(mix.leftover).toEqual(volume('0.5 gal'))
    expect(mix.notes).toEqual([
      { id: 'mix.note.leftover', with: { leftover: volume('0.5 gal'), needed: volume('1.5 gal') } },
    ])
  })

  test('a fill that does not reach is said', () => {
    expect(fill({ ground: area('2500 ft2') }).notes.map(({ id }) => id)).toEqual(['mix.note.short'])
  })
})
