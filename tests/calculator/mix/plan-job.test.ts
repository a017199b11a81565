import { describe, expect, test } from 'vitest'
import { planJob } from '#src/calculator/mix/plan-job.ts'
import type { JobRequest } from '#src/calculator/mix/request.ts'
import { area, output, rate, volume } from '#tests/quantity/read.ts'
import { job, noMixOf, scaleOf } from './mixes.ts'

const request: JobRequest = {
  rate: rate('0.113 oz wt/1000 ft2'),
  figures: { output: output('1 gal/1000 ft2') },
  ground: area('18500 ft2'),
  capacity: volume('4 gal'),
}

describe('a whole job (F23)', () => {
  test('full tanks and a smaller last one', () => {
    const done = job(request)
    expect(done.loads).toBe(5)
    expect(done.totalMix).toEqual(volume('18.5 gal'))
    expect(done.totalConcentrate).toEqual({ value: '2.0905', unit: 'oz wt' })
    expect(done.lastLoad).toEqual(volume('2.5 gal'))
    expect(done.lastMix.concentrate?.measured).toEqual({ value: '0.2825', unit: 'oz wt' })
    expect(done.leftover).toBeUndefined()
  })

  test('the last load goes up to the next mark, and what remains is foreseen', () => {
    const done = job({ ...request, ground: area('18600 ft2'), mark: volume('0.5 gal') })
    expect(done.lastLoad).toEqual(volume('3 gal'))
    expect(done.leftover).toEqual(volume('0.4 gal'))
    expect(done.notes.map(({ id }) => id)).toEqual(['mix.note.leftover'])
  })

  test('a job of whole tanks has no small one', () => {
    const done = job({ ...request, ground: area('12000 ft2') })
    expect(done.groups).toHaveLength(1)
    expect(done.groups[0].count).toBe(3)
    expect(done.lastLoad).toEqual(volume('4 gal'))
  })

  test('a job that fits one tank is one load', () => {
    const done = job({ ...request, ground: area('2500 ft2') })
    expect(done).toMatchObject({ loads: 1, lastLoad: volume('2.5 gal') })
  })

  test('the same mix in the tank comes off the first load', () => {
    const done = job({ ...request, inTank: { kind: 'same', volume: volume('0.5 gal') } })
    expect(done.loads).toBe(5)
    expect(done.groups[0].mix.alreadyIn).toEqual(volume('0.5 gal'))
    expect(done.totalExact).toEqual({ value: '2.034', unit: 'oz wt' })
    expect(done.totalMix).toEqual(volume('18.5 gal'))
  })

  test('a tank that holds enough already needs nothing', () => {
    const done = job({
      ...request,
      ground: area('2000 ft2'),
      inTank: { kind: 'same', volume: volume('3 gal') },
    })
    expect(done.totalConcentrate.value).toBe('0')
    expect(done.leftover).toEqual(volume('1 gal'))
  })

  test('a last load that is too small to measure is held, with even loads as a way out', () => {
    const outcome = planJob({
      ...request,
      ground: area('4100 ft2'),
      tools: [scaleOf('0.5 g')],
      mark: volume('0.05 gal'),
    })
    const held = noMixOf(outcome, 'below-tool')
    expect(outcome).toMatchObject({ load: 'last' })
    expect(held.proposals[0]).toEqual({ kind: 'even-loads', loads: 2, fillTo: volume('2.05 gal') })
  })

  test('without an output there is no job', () => {
    expect(noMixOf(planJob({ ...request, figures: {} }), 'problem').problem).toEqual({
      kind: 'needs',
      need: 'output',
    })
  })

  test('no ground is no job', () => {
    const none = { value: '0', unit: 'ft2' } as const
    expect(noMixOf(planJob({ ...request, ground: none }), 'problem').problem).toEqual({
      kind: 'nothing-asked',
    })
  })
})
