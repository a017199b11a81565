import { readdirSync, readFileSync } from 'node:fs'
import { IntlMessageFormat } from 'intl-messageformat'
import { describe, expect, test } from 'vitest'
import { proposalStep } from '#src/calculator/mix/describe-hold.ts'
import type { MixOutcome } from '#src/calculator/mix/outcome.ts'
import { planFill } from '#src/calculator/mix/plan-fill.ts'
import { planJob } from '#src/calculator/mix/plan-job.ts'
import type { FillRequest } from '#src/calculator/mix/request.ts'
import { compareRates } from '#src/calculator/rate/compare.ts'
import { convertRate, rateProblemStep } from '#src/calculator/rate/convert.ts'
import type { Figure, Step } from '#src/calculator/worked.ts'
import { area, density, form, mass, output, rate, strength, sure, volume } from '#tests/quantity/read.ts'
import { cylinderOf, fillRequest, scaleOf } from './mixes.ts'

const root = new URL('../../../', import.meta.url)
const readWords = (room: string): Record<string, string> =>
  JSON.parse(readFileSync(new URL(`data/words/en/${room}.json`, root), 'utf8'))
const words = { ...readWords('mix'), ...readWords('rates') }

/** A figure as plain text; how it is really shown is for the messengers. */
function tell(figure: Figure): string | number {
  if (typeof figure !== 'object') return figure
  return 'unit' in figure ? `${figure.value} ${figure.unit}` : JSON.stringify(figure)
}

function sentence({ id, with: figures }: Step): string {
  const told = Object.fromEntries(Object.entries(figures).map(([name, figure]) => [name, tell(figure)]))
  return String(new IntlMessageFormat(words[id] ?? `No words for ${id}`, 'en').format(told))
}

function stepsOf(outcome: MixOutcome): readonly Step[] {
  if (outcome.outcome === 'answer') return [...outcome.mix.working, ...outcome.mix.notes]
  const proposals = 'proposals' in outcome ? outcome.proposals : []
  return [outcome.reason, ...proposals.map(proposalStep)]
}

const other = {
  kind: 'other',
  volume: volume('1.5 gal'),
  rate: rate('0.113 oz wt/1000 ft2'),
  output: output('1 gal/1000 ft2'),
} as const
const two = { output: output('2 gal/1000 ft2') }

const FILLS: readonly Partial<FillRequest>[] = [
  { usualOutput: output('2 gal/1000 ft2'), ground: area('1500 ft2'), lowest: rate('1 oz wt/1000 ft2') },
  { ground: area('9000 ft2'), fill: volume('1.9 gal'), mark: volume('0.25 gal') },
  { inTank: { kind: 'same', volume: volume('0.5 gal') }, tools: [scaleOf('0.1 g', '1 g')] },
  { inTank: { kind: 'same', volume: volume('2 gal') } },
  { inTank: { kind: 'same', volume: volume('3 gal') } },
  { inTank: { kind: 'same', volume: volume('3 gal') }, capacity: volume('2.5 gal') },
  { inTank: other, figures: two },
  { inTank: other, figures: two, capacity: volume('4 gal') },
  { inTank: other, figures: two, capacity: volume('9 gal'), mark: volume('2 gal') },
  { inTank: { ...other, volume: volume('1 gal') } },
  { inTank: { ...other, output: output('2 gal/1000 ft2') } },
  { fill: volume('5 gal'), capacity: volume('4 gal') },
  { fill: volume('0.5 gal'), tools: [scaleOf('1 g')] },
  { fill: volume('0.25 gal'), tools: [scaleOf('1 g')] },
  { tools: [cylinderOf('1 mL')] },
  { rate: rate('1 fl oz/1000 ft2'), tools: [scaleOf('1 g')] },
  { tools: [{ kind: 'scale', name: 'odd', step: volume('1 mL') }] },
  { fill: { value: '0', unit: 'gal' } },
  { rate: rate('0.5 % v/v') },
  { rate: rate('9 oz wt/1000 ft2'), maxima: [[rate('1 oz wt/1000 ft2')]] },
  { maxima: [[rate('0.113 oz wt/1000 ft2'), rate('4 oz wt/acre')]] },
  { rate: rate('0.115 oz wt/1000 ft2'), maxima: [[rate('0.115 oz wt/1000 ft2'), rate('5 oz wt/acre')]] },
  { rate: rate('1 lb ai/acre') },
  { rate: rate('1 lb ai/acre'), figures: { ...two, strengths: [strength('4 lb ai/gal')] } },
]

const JOB = {
  ...fillRequest(),
  ground: area('4100 ft2'),
  capacity: volume('4 gal'),
  mark: volume('0.05 gal'),
}
const jobs = [planJob(JOB), planJob({ ...JOB, tools: [scaleOf('0.5 g')] })]
const jobStepsToTell = jobs.flatMap((outcome) =>
  outcome.outcome === 'answer' ? [...outcome.job.working, ...outcome.job.notes] : stepsOf(outcome),
)

const figures = {
  strengths: [strength('50 % ai')],
  density: density('9 lb/gal'),
  mixDensity: density('8.34 lb/gal'),
  output: output('1 gal/1000 ft2'),
}
const conversions = [
  ...sure(convertRate(rate('1 lb ai/acre'), form('pt/100 gal'), figures)).working,
  ...sure(convertRate(rate('1 % w/w'), form('oz wt/gal'), figures)).working,
  ...(['strength-ai', 'strength-ae', 'density', 'output', 'mix-density'] as const).map((need) =>
    rateProblemStep({ kind: 'needs', need }),
  ),
  rateProblemStep({ kind: 'ai-by-volume' }),
]
const changes = ['1.1', '10', '43.56', '16', '7'].flatMap((value) => {
  const { message } = sure(compareRates(rate('1 lb/acre'), { ...rate('1 lb/acre'), value }))
  return message ? [message] : []
})

const told = [
  ...FILLS.flatMap((changes) => stepsOf(planFill(fillRequest(changes)))),
  ...jobStepsToTell,
  ...conversions,
  ...changes,
]

describe('sentences of the calculator', () => {
  test.each([...new Map(told.map((step) => [step.id, step])).values()])(
    '$id has words for all its figures',
    (step) => {
      expect(words[step.id]).toBeDefined()
      const text = sentence(step)
      expect(text).not.toMatch(/undefined|\[object|\{/)
      for (const figure of Object.values(step.with)) {
        if (typeof figure === 'object' && 'unit' in figure) expect(text).toContain(figure.unit)
      }
    },
  )

  test('no sentence is left without an occasion', () => {
    const used = new Set(told.map(({ id }) => id))
    expect(Object.keys(words).filter((id) => !used.has(id))).toEqual(['mix.fill-to'])
  })

  test('every id that the rooms name is in the catalogue', () => {
    const folders = ['src/calculator/mix/', 'src/calculator/rate/']
    const named = folders.flatMap((folder) =>
      readdirSync(new URL(folder, root)).flatMap((name) => {
        const source = readFileSync(new URL(folder + name, root), 'utf8')
        return [...source.matchAll(/step\(\s*'((?:mix|rate)\.[a-z.-]+)'/g)].map((match) => match[1] ?? '')
      }),
    )
    expect(named.length).toBeGreaterThan(20)
    expect(named.filter((id) => words[id] === undefined)).toEqual([])
  })

  test('a finer tool is told by its step', () => {
    expect(sentence(proposalStep({ kind: 'finer-tool', step: mass('0.05 g') }))).toBe(
      '0.05 g steps would do: use a finer tool.',
    )
  })
})
