import { describe, expect, test } from 'vitest'
import { randomStream } from '#src/key-trial/random.ts'
import { figuresOf } from '#src/key-trial/report.ts'
import { type RunPlan, runTrial } from '#src/key-trial/runs.ts'
import { disturbedTruth } from '#src/key-trial/truth.ts'
import { runUnsplit } from '#src/key-trial/unsplit.ts'
import { readKey } from '../../data/taxa/load.ts'

const key = readKey()
const PLAN: RunPlan = { errors: 0.1, seedHeads: true, truth: 'plain', walks: 250, seed: 7 }

describe('the trial', () => {
  test('gives the same figures for the same seed and others for another', () => {
    const one = figuresOf(runTrial(key, PLAN))
    expect(figuresOf(runTrial(key, PLAN))).toEqual(one)
    expect(figuresOf(runTrial(key, { ...PLAN, seed: 8 }))).not.toEqual(one)
    // A trial makes a model without each plant in turn; how long that takes says nothing about the figures.
  }, 180_000)

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

describe('without a seed head', () => {
  const counts = runUnsplit(key, { errors: 0.1, seedHeads: false, walksEach: 20, seed: 5 })

  test('plants that mown turf does not tell from the lawn are not decided without a close-up', () => {
    expect(counts.plainWalks).toBeGreaterThan(80)
    expect(counts.plainAsPair).toBe(0)
  })

  test('and are seldom decided with one', () => {
    expect(counts.walks).toBeGreaterThan(1200)
    expect(counts.held / counts.walks).toBeGreaterThan(0.85)
    expect(counts.ownTurf / counts.walks).toBeLessThan(0.02)
  })
})
