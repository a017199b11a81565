/**
 * What so many crews need, and every crew at 7 in the morning against the platform's limits: `npm run storm`. `-- --json`
 * one JSON object as the last line; `--messages N` a crew, `--processes N`, `--per-second N` messages of all processes.
 */
import { parseArgs } from 'node:util'
import { PER_SECOND } from '#src/reminders/pace.ts'
import { ASSUMED, carry, MEASURED } from './carry.ts'
import { neededFor, simulateStorm, USUAL, ZONES } from './storm.ts'
import { CARRIED_HEAD, carriedRows } from './tables.ts'

const { values } = parseArgs({
  options: {
    messages: { type: 'string', default: String(USUAL.messages) },
    processes: { type: 'string', default: String(USUAL.processes) },
    'per-second': { type: 'string', default: String(PER_SECOND) },
    json: { type: 'boolean', default: false },
  },
})
const [messages, processes, perSecond] = [values.messages, values.processes, values['per-second']].map(
  Number,
) as [number, number, number]

if ([messages, processes, perSecond].some((one) => !Number.isInteger(one) || one < 1)) {
  process.stderr.write(
    'Cannot read that: --messages, --processes and --per-second are whole numbers from 1\n',
  )
  process.exitCode = 1
} else {
  const storms = [100, 1_000, 10_000, 100_000, 1_000_000].map((crews) => ({
    ...simulateStorm({ ...USUAL, crews, messages, processes, perSecond }),
    // With as many processes as the answers of so many crews need.
    neededForTenMinutes: neededFor(10, {
      ...USUAL,
      crews,
      messages,
      processes: carry(crews, MEASURED, ASSUMED).processes,
    }),
  }))
  const carried = [CARRIED_HEAD, ...carriedRows()]
  if (values.json) process.stdout.write(`${JSON.stringify({ carried, storms })}\n`)
  else {
    const head = [
      'crews',
      'messages',
      'a second',
      ...ZONES.map(({ name }) => `${name}, min late`),
      'told to wait',
      'requests a second needed for 10 min',
    ]
    const lines = storms.map((storm) => [
      storm.crews,
      storm.messages,
      storm.sentPerSecond,
      ...ZONES.map(({ name }) => storm.lateMinutes[name] ?? 0),
      storm.refused,
      storm.neededForTenMinutes?.platformPerSecond ?? '',
    ])
    process.stdout.write(`${[...carried, [], head, ...lines].map((line) => line.join('\t')).join('\n')}\n`)
  }
}
