import { planFill } from '#src/calculator/mix/plan-fill.ts'
import { consider, type Walk } from '#src/key/index.ts'
import type { KeyData } from '#src/key/schema.ts'
import { output, rate, volume } from '#tests/quantity/read.ts'
import { readKey } from '../../data/taxa/load.ts'
import { type Row, rowsOf } from './figures.ts'

const MIX = 'calculator: one tank'
const FLOATS = 'the same sum in plain numbers'
const STEP = 'key: one step'
const SCAN = 'plain scan of the table'

/** The calculator and the key alone, a call, against plain numbers and against a scan of the same table. */
export function measureEngines(samples: number): readonly Row[] {
  const request = {
    rate: rate('0.113 oz wt/1000 ft2'),
    figures: { output: output('1 gal/1000 ft2') },
    fill: volume('2 gal'),
  }
  const key = readKey()
  const walk: Walk = {
    turf: { kind: 'typed', turfs: ['tall-fescue'] },
    answers: [{ kind: 'states', character: 'seedhead', states: ['none-seen'] }],
    mown: true,
  }
  const times = new Map([
    [FLOATS, timesOf(samples, 10_000, (at) => plainSum(0.113, 2 + (at % 3), 1))],
    [MIX, timesOf(samples, 20, () => planFill(request))],
    [SCAN, timesOf(samples, 200, () => plainScan(key, walk))],
    [STEP, timesOf(samples, 2, () => consider(key, walk))],
  ])
  return rowsOf(times, { [MIX]: FLOATS, [STEP]: SCAN })
}

/** Ounces for a tank: what a spreadsheet would do. */
const plainSum = (perThousand: number, gallons: number, gallonsPerThousand: number) =>
  Math.round((perThousand * gallons * 10) / gallonsPerThousand) / 10

/** Plants whose row agrees with every answer: what a list without chances would do. */
function plainScan({ taxa }: KeyData, { answers }: Walk): number {
  return taxa.filter(({ cells }) =>
    answers.every((answer) => {
      const cell = cells[answer.character]
      if (answer.kind !== 'states' || cell?.kind !== 'states') return true
      return answer.states.some((state) => cell.states.includes(state))
    }),
  ).length
}

/** Keeps what is worked out in use, so that it cannot be left out. */
let kept: unknown

/** Ms a call, by batches, since one call is shorter than the clock tells apart. */
function timesOf(samples: number, batch: number, work: (at: number) => unknown): number[] {
  const run = () => {
    const began = performance.now()
    for (let at = 0; at < batch; at += 1) kept = work(at)
    return (performance.now() - began) / batch
  }
  run()
  const times = Array.from({ length: samples }, run)
  if (kept === undefined) throw new Error('Nothing was worked out')
  return times
}
