import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Boom, Width } from '#src/calculator/calibrate/boom.ts'
import {
  boomSwath,
  flowPerNozzle,
  outputAtSpeed,
  solveBoom,
  speedForOutput,
} from '#src/calculator/calibrate/boom.ts'
import { PER_ACRE, PER_HECTARE, PER_THOUSAND } from '#src/calculator/calibrate/output.ts'
import { flowAtPressure, pressureForFlow } from '#src/calculator/calibrate/pressure.ts'
import { big, compareNumbers } from '#src/quantity/big.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { compareQuantities, quantity } from '#src/quantity/quantity.ts'
import { idsOf, resultOf, spokenAll } from '../sayable.ts'

const spacing = (value: string): Width => ({ of: 'nozzle', spacing: quantity(value, 'in') })
const gpm = (value: string) => quantity(value, 'gal/min')
const mph = (value: string) => quantity(value, 'mph')
const gpa = (value: string) => ({ value, ...{ unit: 'gal' as const, per: PER_ACRE.per } })

describe('output, flow and speed of a boom', () => {
  test('0.4 gal/min at 4 mph and 20 in is 29.7 gallons per acre', () => {
    const { solved, output } = resultOf(
      solveBoom({ width: spacing('20'), flow: gpm('0.4'), speed: mph('4') }),
    )
    expect([solved, output]).toEqual(['output', gpa('29.7')])
  })

  test('the missing one of the three is solved for', () => {
    const flow = resultOf(solveBoom({ width: spacing('20'), speed: mph('4'), output: gpa('29.7') }))
    const speed = resultOf(solveBoom({ width: spacing('20'), flow: gpm('0.4'), output: gpa('29.7') }))
    expect([flow.solved, flow.flow]).toEqual(['flow', gpm('0.4')])
    expect([speed.solved, speed.speed]).toEqual(['speed', mph('4')])
  })

  test('one nozzle with its spacing and the whole boom with its swath agree', () => {
    const one = solveBoom({ width: spacing('20'), flow: gpm('0.4'), speed: mph('4') })
    const swath = boomSwath(12, quantity('20', 'in'))
    expect(swath).toEqual(quantity('20', 'ft'))
    const whole = solveBoom({ width: { of: 'boom', swath }, flow: gpm('4.8'), speed: mph('4') })
    expect(resultOf(whole).output).toEqual(resultOf(one).output)
    expect(flowPerNozzle(gpm('4.8'), 12)).toEqual(gpm('0.4'))
  })

  test('metric: 600 × L/min ÷ (km/h × m) is liters per hectare', () => {
    const width: Width = { of: 'nozzle', spacing: quantity('0.5', 'm') }
    const given = { width, flow: quantity('1.2', 'L/min'), speed: quantity('6', 'km/h') }
    const result = solveBoom(given, { form: PER_HECTARE })
    expect(compareNumbers(resultOf(result).output.value, 240)).toBe(0)
    expect(result.ok && result.working.map((one) => one.id)).toEqual([
      'calibrate.boom-output',
      'calibrate.told-as',
    ])
    expect(spokenAll(result)[0]).toContain('5,940 × 0.317 gal/min ÷ (3.728 mph × 19.69 in)')
  })

  test.each([
    [{ width: spacing('20'), flow: gpm('0.4') }, 'calibrate.two-of-three'],
    [{ width: spacing('20') }, 'calibrate.two-of-three'],
    [
      { width: spacing('20'), flow: gpm('1'), speed: mph('3'), output: gpa('20') },
      'calibrate.nothing-to-solve',
    ],
    [{ width: spacing('0'), flow: gpm('0.4'), speed: mph('4') }, 'calibrate.not-above-zero'],
    [{ width: spacing('20'), flow: gpm('0.4'), speed: mph('0') }, 'calibrate.not-above-zero'],
    [{ width: spacing('20'), flow: gpm('-1'), speed: mph('4') }, 'calibrate.not-above-zero'],
    [{ width: spacing('20'), flow: gpm('0.4'), speed: mph('352') }, 'calibrate.absurd'],
    [{ width: spacing('20'), flow: gpm('0.4'), output: gpa('0') }, 'calibrate.not-above-zero'],
  ])('asks or refuses: %o', (given, id) => {
    expect(idsOf(solveBoom(given))).toEqual([id])
  })
})

const positive = (least: number, most: number) =>
  fc.integer({ min: least * 1000, max: most * 1000 }).map((n) => big(n).div(1000).toString())

function isSame(a: Quantity, b: Quantity) {
  expect(compareQuantities(a, b)).toBe(0)
}

describe('the formulas turn each other round', () => {
  test('flow, speed and output: any two give back the third', () => {
    fc.assert(
      fc.property(positive(0.05, 20), positive(1, 20), positive(6, 100), (flow, speed, inches) => {
        const width = spacing(inches)
        const whole: Boom = resultOf(solveBoom({ width, flow: gpm(flow), speed: mph(speed) }))
        isSame(resultOf(solveBoom({ width, speed: mph(speed), output: whole.output })).flow, gpm(flow))
        isSame(resultOf(solveBoom({ width, flow: gpm(flow), output: whole.output })).speed, mph(speed))
      }),
    )
  })

  test('the same output comes out in any form and from any units', () => {
    fc.assert(
      fc.property(positive(0.05, 20), positive(1, 20), (flow, speed) => {
        const given = { width: spacing('20'), flow: gpm(flow), speed: mph(speed) }
        const perThousand = resultOf(solveBoom(given, { form: PER_THOUSAND })).output
        const perAcre = resultOf(solveBoom(given)).output
        expect(compareNumbers(big(perThousand.value).times('43.56'), perAcre.value)).toBe(0)
      }),
    )
  })

  test('pressure for the flow that a pressure gives is that pressure', () => {
    fc.assert(
      fc.property(positive(0.05, 20), positive(10, 100), positive(10, 100), (flow, from, to) => {
        const [p1, p2] = [quantity(from, 'psi'), quantity(to, 'psi')]
        const there = resultOf(flowAtPressure(gpm(flow), p1, p2))
        isSame(resultOf(pressureForFlow(p1, gpm(flow), there)), p2)
        isSame(resultOf(flowAtPressure(there, p2, p1)), gpm(flow))
      }),
    )
  })

  test('at constant flow, output times speed stays the same', () => {
    fc.assert(
      fc.property(positive(5, 200), positive(1, 15), positive(1, 15), (output, from, to) => {
        const after = resultOf(outputAtSpeed(gpa(output), mph(from), mph(to)))
        expect(compareNumbers(big(after.value).times(to), big(output).times(from))).toBe(0)
        isSame(resultOf(speedForOutput(mph(from), gpa(output), after)), mph(to))
      }),
    )
  })
})

test('twice the pressure gives 41 percent more, four times gives twice', () => {
  const flow = gpm('1')
  expect(
    Number(resultOf(flowAtPressure(flow, quantity('20', 'psi'), quantity('40', 'psi'))).value),
  ).toBeCloseTo(Math.SQRT2, 12)
  const four = flowAtPressure(flow, quantity('20', 'psi'), quantity('80', 'psi'))
  expect(resultOf(four).value).toBe('2')
  expect(idsOf(four)).toEqual(['calibrate.pressure-far'])
})

test('a pressure that no hose stands is refused', () => {
  expect(idsOf(pressureForFlow(quantity('40', 'psi'), gpm('1'), gpm('10')))).toEqual(['calibrate.absurd'])
})
