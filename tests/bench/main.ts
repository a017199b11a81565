/**
 * How fast it is, against a bare bot in the same run: `npm run bench`. `-- --samples N`, `--products N` in
 * the label book, `--json` one JSON object as
 * the last line.
 */
import { parseArgs } from 'node:util'
import { measureRoundTrips } from './round-trip.ts'
import { tableOf } from './table.ts'

const { values } = parseArgs({
  options: {
    samples: { type: 'string', default: '200' },
    products: { type: 'string', default: '5000' },
    json: { type: 'boolean', default: false },
  },
})
const [samples, products] = [Number(values.samples), Number(values.products)]

if ([samples, products].some((one) => !Number.isInteger(one) || one < 1)) {
  process.stderr.write('Cannot read that: --samples and --products are whole numbers from 1\n')
  process.exitCode = 1
} else {
  const { rows, memory } = await measureRoundTrips(samples, products)
  const report = { rows, memory, growth: [] }
  process.stdout.write(values.json ? `${JSON.stringify(report)}\n` : tableOf(report))
}
