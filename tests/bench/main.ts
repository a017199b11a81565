/**
 * How fast it is, against a bare bot in the same run: `npm run bench`. `-- --samples N`, `--products N` in
 * the label book, `--large` with a million records too, `--quick` without growth, `--json` one JSON object as
 * the last line.
 */
import { parseArgs } from 'node:util'
import { measureEngines } from './engines.ts'
import { measureGrowth } from './growth.ts'
import { measureRoundTrips } from './round-trip.ts'
import { tableOf } from './table.ts'

const { values } = parseArgs({
  options: {
    samples: { type: 'string', default: '200' },
    products: { type: 'string', default: '5000' },
    large: { type: 'boolean', default: false },
    quick: { type: 'boolean', default: false },
    json: { type: 'boolean', default: false },
  },
})
const sizes = [1_000, 10_000, 100_000, ...(values.large ? [1_000_000] : [])]
const [samples, products] = [Number(values.samples), Number(values.products)]

if ([samples, products].some((one) => !Number.isInteger(one) || one < 1)) {
  process.stderr.write('Cannot read that: --samples and --products are whole numbers from 1\n')
  process.exitCode = 1
} else {
  const { rows, memory } = await measureRoundTrips(samples, products)
  const report = {
    rows: [...rows, ...measureEngines(samples)],
    memory,
    growth: values.quick ? [] : await measureGrowth(sizes, samples),
  }
  process.stdout.write(values.json ? `${JSON.stringify(report)}\n` : tableOf(report))
}
