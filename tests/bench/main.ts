/**
 * How fast it is, against a bare bot in the same run: `npm run bench`. `-- --samples N`, `--products N` in
 * the label book, `--large` with a million records too, in growth, start and papers; `--quick` without growth, start
 * and papers of a full store; `--json` one JSON object as the last line, `--seconds N` of asking as fast as it answers (0 leaves it out), `--postgres URL` a server on which
 * databases may be made, to measure on it beside SQLite.
 */
import { parseArgs } from 'node:util'
import { measureEngines } from './engines.ts'
import { measureExports } from './exports.ts'
import { measureGrowth } from './growth.ts'
import { measureRoundTrips } from './round-trip.ts'
import { measureServers } from './servers.ts'
import { measureStart } from './start.ts'
import { tableOf } from './table.ts'
import { measureThroughput } from './throughput.ts'

const { values } = parseArgs({
  options: {
    samples: { type: 'string', default: '200' },
    products: { type: 'string', default: '5000' },
    large: { type: 'boolean', default: false },
    quick: { type: 'boolean', default: false },
    seconds: { type: 'string', default: '8' },
    postgres: { type: 'string' },
    json: { type: 'boolean', default: false },
  },
})
/** Records of a paper: a PDF of so many takes half a minute, and one of a million hours. */
const EXPORTED = 5_000
const sizes = [1_000, 10_000, 100_000, ...(values.large ? [1_000_000] : [])]
const [samples, products] = [Number(values.samples), Number(values.products)]
const seconds = Number(values.seconds)

if ([samples, products].some((one) => !Number.isInteger(one) || one < 1) || !(seconds >= 0)) {
  process.stderr.write(
    'Cannot read that: --samples and --products are whole numbers from 1, --seconds from 0\n',
  )
  process.exitCode = 1
} else {
  const postgres = values.postgres ?? null
  const most = sizes.at(-1) ?? 0
  const note = (what: string) => process.stderr.write(`${new Date().toISOString().slice(11, 19)} ${what}\n`)
  note('round trips')
  const { rows, memory } = await measureRoundTrips(samples, products)
  note('requests a second')
  const throughput = seconds === 0 ? [] : await measureThroughput(seconds, postgres)
  note('growth')
  const grown = values.quick ? [] : await measureGrowth(sizes, samples)
  const grownThere = values.quick || postgres === null ? [] : await measureGrowth(sizes, samples, postgres)
  note('start with a full store')
  const start = values.quick ? [] : [await measureStart(most)]
  note('papers')
  const exports = values.quick
    ? []
    : [
        ...(await measureExports(EXPORTED, ['csv', 'json', 'pdf'])),
        ...(values.large ? await measureExports(most, ['csv', 'json']) : []),
      ]
  const report = {
    rows: [...rows, ...measureEngines(samples)],
    memory: values.quick ? memory : { ...memory, kb_per_server: await measureServers() },
    throughput,
    growth: [...grown, ...grownThere],
    start,
    exports,
  }
  process.stdout.write(values.json ? `${JSON.stringify(report)}\n` : tableOf(report))
}
