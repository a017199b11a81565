/**
 * The real bot process under everything that can go wrong: `npm run ordeal`. `-- --kills N --seconds N --seed N`,
 * `--database postgres` with the server in TEST_POSTGRES_URL, `--json` one JSON object as the last line. Ends with 0 when nothing was lost, nothing doubled and all chains hold.
 */
import { parseArgs } from 'node:util'
import { postgresUrl } from '#tests/helpers/postgres-url.ts'
import { type OrdealReport, runOrdeal } from './run.ts'

const { values } = parseArgs({
  options: {
    kills: { type: 'string', default: '200' },
    seconds: { type: 'string', default: '0' },
    seed: { type: 'string', default: '1' },
    database: { type: 'string', default: 'sqlite' },
    json: { type: 'boolean', default: false },
  },
})
const [kills, seconds, seed] = [values.kills, values.seconds, values.seed].map(Number) as [
  number,
  number,
  number,
]

const postgres = values.database === 'postgres' ? postgresUrl() : null
if (
  !['sqlite', 'postgres'].includes(values.database) ||
  (values.database === 'postgres') !== (postgres !== null)
) {
  process.stderr.write(
    'Cannot run on that: --database is sqlite or postgres, with a server in TEST_POSTGRES_URL\n',
  )
  process.exitCode = 1
} else if ([kills, seconds, seed].some((one) => !Number.isInteger(one) || one < 0)) {
  process.stderr.write('Cannot read that: --kills, --seconds and --seed are whole numbers\n')
  process.exitCode = 1
} else {
  const report = await runOrdeal({
    kills,
    seconds,
    seed,
    ...(postgres === null ? {} : { postgres }),
    tell: (line) => process.stderr.write(`${line}\n`),
  })
  const { findings } = report
  const broken = findings.chain.filter(({ breaks }) => breaks.length > 0)
  const holds = [findings.lost, findings.doubled, findings.wrong, broken].every((found) => found.length === 0)
  if (values.json)
    process.stdout.write(
      `${JSON.stringify({
        kills: report.kills,
        faults: report.faults,
        lost: findings.lost.length,
        doubled: findings.doubled.length,
        chain: broken.length === 0 ? 'ok' : 'broken',
        wrong: findings.wrong,
        details: [...findings.lost, ...findings.doubled],
        seed,
        requests: report.deeds,
        answered: report.answered,
        records: findings.records,
        links: findings.chain.reduce((sum, { links }) => sum + links, 0),
        reminders: report.reminders,
        repeats: findings.repeats,
        comeback_ms: report.comebackMs,
        answer_ms: report.answerMs,
        ends: report.ends,
        seconds: report.seconds,
      })}\n`,
    )
  else process.stdout.write(tableOf(report, holds))
  process.exitCode = holds ? 0 : 1
}

function tableOf(report: OrdealReport, holds: boolean): string {
  const { findings } = report
  const rows = [
    ...Object.entries({ kill: report.kills, ...report.faults }).map(
      ([name, count]) => `${name.padEnd(26)}${String(count).padStart(6)}`,
    ),
    '',
    `${report.deeds} requests, ${report.answered} of them answered; ${report.reminders} reminders, ${findings.repeats} of them once more and marked; ${findings.answers} answers and ${findings.records} records kept; ${report.seconds} s, seed ${report.seed}`,
    `back after ${report.comebackMs.median} ms (at most ${report.comebackMs.most}), then answers in ${report.answerMs.median} ms (at most ${report.answerMs.most})`,
    `ended by itself: ${JSON.stringify(report.ends)}`,
    ...[...findings.lost.map((one) => `LOST ${one}`), ...findings.doubled.map((one) => `DOUBLED ${one}`)],
    ...findings.wrong.map((one) => `WRONG ${one}`),
    ...findings.chain.map(
      ({ crew, links, breaks }) =>
        `records of ${crew}: ${links} links, ${breaks.length === 0 ? 'the chain holds' : `BROKEN at ${breaks.map(({ seq }) => seq)}`}`,
    ),
    holds ? 'Nothing lost, nothing doubled.' : 'It does not hold.',
  ]
  return `${rows.join('\n')}\n`
}
