import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { pictureSvg } from '#src/pictures/draw-picture.ts'
import { spreadApart } from '#src/pictures/kinds/spread-apart.ts'
import { loadWords } from '#src/words/load.ts'
import { speak } from '#src/words/speak.ts'
import { readSvg } from './read-svg.ts'
import { samples } from './samples.ts'

const words = loadWords()
const light = {
  say: (text: Parameters<typeof speak>[1]) => speak(words, text, { locale: 'en', escape: (typed) => typed }),
  theme: 'light',
} as const
const chart = Object.fromEntries(samples)['control-chart'] as Record<string, unknown>
const scale = Object.fromEntries(samples)['rating-scale'] as Record<string, unknown>
const shapes = (data: Record<string, unknown>) =>
  readSvg(pictureSvg('control-chart', data, light).svg).elements

describe('a chart of control', () => {
  const { svg, alt } = pictureSvg('control-chart', chart, light)

  test('names each line where it ends, with its last figure', () => {
    const { text } = readSvg(svg)
    for (const part of ['75 %', 'Flag 3', '70 %', 'Flag 4, by', 'untreated', '5 %', 'application', 'rain'])
      expect(text).toContain(part)
  })

  test('counts days from the first application', () => {
    const { text } = readSvg(svg)
    expect(text).toContain('Days since the application on Mon, May 4, 2026')
    for (const day of ['0', '14', '28', '35', '42']) expect(svg).toContain(`>${day}<`)
  })

  test('tells who cannot see it every figure, negative ones too', () => {
    for (const part of [
      'day 14: -12 %',
      'day 42: 75 %',
      'untreated: day 14: 0 %',
      'application on day 0, 35',
      'rain on day 5, 6, 25',
    ])
      expect(alt).toContain(part)
  })

  test('every line has dashes of its own, and every mark a shape or filling of its own', () => {
    const plots = ['a', 'b', 'c', 'd', 'e'].map((name, at) => ({
      name,
      points: [
        { day: '2026-05-18', value: `${10 * at}` },
        { day: '2026-06-15', value: `${20 * at}` },
      ],
    }))
    const elements = shapes({ ...chart, plots, rain: [], applications: [] })
    const lines = elements.filter((one) => one.attributes['stroke-linejoin'] === 'round')
    expect(new Set(lines.map((one) => one.attributes['stroke-dasharray'] ?? 'solid')).size).toBe(6)
    const marks = elements.filter(
      (one) => one.attributes.transform?.startsWith('translate') && one.attributes.d,
    )
    expect(new Set(marks.map((one) => `${one.attributes.d} ${one.attributes.fill}`)).size).toBe(6)
  })

  test.each([
    ['no plot', { plots: [] }],
    [
      'six plots',
      {
        plots: Array.from({ length: 6 }, () => ({ name: 'x', points: [{ day: '2026-05-18', value: '1' }] })),
      },
    ],
    ['a day that is none', { rain: ['2026-02-30'] }],
    ['a figure that is none', { untreated: [{ day: '2026-05-18', value: 'brown' }] }],
    ['another measure', { measure: 'mood' }],
  ])('refuses %s', (_, wrong) => {
    expect(() => pictureSvg('control-chart', { ...chart, ...wrong }, light)).toThrow()
  })

  test('is drawn from one point alone, and from figures far below zero', () => {
    for (const value of ['0', '100', '-12.5', '-900']) {
      const plots = [{ name: 'x', points: [{ day: '2026-05-18', value }] }]
      const { title, measure } = chart
      expect(shapes({ title, measure, plots, applications: [], rain: [] }).length).toBeGreaterThan(10)
    }
  })
})

describe('the pictured steps of control', () => {
  const drawn = (step: number) => {
    const { elements } = readSvg(pictureSvg('rating-scale', { ...scale, steps: [step] }, light).svg)
    const weeds = elements.filter((one) => one.name === 'path')
    return weeds.map((one) => (one.attributes['stroke-dasharray'] === undefined ? 'living' : 'dead'))
  }

  test.each([
    [0, 0],
    [25, 5],
    [50, 10],
    [75, 15],
    [90, 18],
    [100, 20],
  ])('at %i percent %i of twenty weeds lie dead', (step, dead) => {
    expect(drawn(step).filter((one) => one === 'dead')).toHaveLength(dead)
    expect(drawn(step)).toHaveLength(20)
  })

  test('a weed that is dead at one step is dead at the next', () => {
    const steps = [0, 25, 50, 75, 90, 100].map(drawn)
    for (const [at, weeds] of steps.slice(1).entries())
      steps[at]?.forEach((weed, n) => {
        if (weed === 'dead') expect(weeds[n]).toBe('dead')
      })
  })
})

test('names beside lines never touch, and stand in the order of their lines', () => {
  const label = fc.record({
    middle: fc.integer({ min: 0, max: 400 }),
    height: fc.integer({ min: 20, max: 60 }),
  })
  fc.assert(
    fc.property(fc.array(label, { maxLength: 6 }), (labels) => {
      const middles = spreadApart(labels, { top: 0, bottom: 500 })
      const placed = labels
        .map((one, at) => ({ ...one, at: middles[at] ?? Number.NaN }))
        .sort((a, b) => a.at - b.at)
      for (const [n, later] of placed.slice(1).entries()) {
        const earlier = placed[n] ?? later
        expect(later.at - earlier.at).toBeGreaterThanOrEqual((later.height + earlier.height) / 2 - 1e-9)
        expect(later.middle).toBeGreaterThanOrEqual(earlier.middle)
      }
    }),
  )
})
