import { describe, expect, test } from 'vitest'
import { randomStream } from '#src/key-trial/random.ts'
import { figuresOf } from '#src/key-trial/report.ts'
import { type RunPlan, runTrial } from '#src/key-trial/runs.ts'
import { simulateWalk } from '#src/key-trial/simulate.ts'
import { disturbedTruth, matesOf } from '#src/key-trial/truth.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()
const PLAN: RunPlan = { errors: 0.1, seedHeads: true, truth: 'plain', walks: 250, seed: 7 }

describe('the trial', () => {
  test('gives the same figures for the same seed and others for another', () => {
    const one = figuresOf(runTrial(key, PLAN))
    expect(figuresOf(runTrial(key, PLAN))).toEqual(one)
    expect(figuresOf(runTrial(key, { ...PLAN, seed: 8 }))).not.toEqual(one)
  })

  test('names most weeds right with seed heads and no own turf a weed', () => {
    const run = figuresOf(runTrial(key, { ...PLAN, seed: 11 }))
    expect(run.walks).toBe(250)
    expect(run.named).toBeGreaterThan(0.65)
    expect(run.named_right).toBeGreaterThan(0.93)
    expect(run.own_turf_as_weed).toBeLessThanOrEqual(0.004)
    expect(run.named + run.held + run.weed_as_own_turf).toBeCloseTo(1, 4)
  })

  test('disturbs cells from memory and every range, and nothing else', () => {
    const truth = disturbedTruth(key, randomStream(3))
    for (const taxon of key.taxa) {
      for (const [id, cell] of Object.entries(taxon.cells)) {
        const other = truth.get(taxon.id)?.[id]
        if (cell.kind === 'states' && !cell.memory) expect(other).toEqual(cell)
        if (cell.kind === 'range' && !cell.memory && cell.to > 0) expect(other).not.toEqual(cell)
      }
    }
  })
})

/** Pairs of which no firm character that survives mowing lists different states in the table of plants. */
const UNSPLIT = [
  ['st-augustine', 'centipede'],
  ['centipede', 'carpet-common'],
  ['centipede', 'carpet-tropical'],
  ['st-augustine', 'carpet-tropical'],
  ['carpet-common', 'carpet-tropical'],
  ['bermuda-hybrid', 'zoysia-coarse'],
  ['bermuda-hybrid', 'zoysia-fine'],
  ['zoysia-coarse', 'zoysia-fine'],
  ['bermuda', 'bermuda-hybrid'],
  ['bermuda', 'kikuyu'],
  ['zoysia-coarse', 'kikuyu'],
  ['seashore-paspalum', 'bermuda'],
  ['seashore-paspalum', 'bermuda-hybrid'],
  ['seashore-paspalum', 'bahia'],
  ['seashore-paspalum', 'torpedograss'],
  ['bermuda-hybrid', 'torpedograss'],
  ['buffalo', 'nimblewill'],
] as const

describe('without a seed head', () => {
  test.each(UNSPLIT)('%s and %s are mostly not sure', (one, other) => {
    const endings = [
      { plant: one, lawn: other },
      { plant: other, lawn: one },
    ]
      .filter(({ lawn }) => key.taxa.find((taxon) => taxon.id === lawn)?.role !== 'weed')
      .flatMap(({ plant, lawn }) => endingsOf(plant, lawn))
    const held = endings.filter((ending) => ending === 'hold').length
    expect(held / endings.length).toBeGreaterThanOrEqual(0.5)
  })
})

function endingsOf(plant: string, lawn: string): string[] {
  const taxon = key.taxa.find((candidate) => candidate.id === plant)
  if (taxon === undefined) throw new Error(`No plant ${plant}`)
  const mates = matesOf(key)
  const specimen = { cells: taxon.cells, mates: (character: string) => mates(taxon, character) }
  const observer = { errors: 0.1, cantTell: 0.2, seedHeads: false, random: randomStream(5) }
  return Array.from(
    { length: 40 },
    () => simulateWalk(key, specimen, { kind: 'record', turfs: [lawn] }, observer).verdict.result,
  )
}
