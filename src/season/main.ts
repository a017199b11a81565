/**
 * The demo crew through a season: `npm run season`. `--seed N` another season, `--weeks N` a shorter one, `--json` one
 * JSON object, `--write` puts the table into docs/season.md.
 */
import { writeFileSync } from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { commands } from '#commands/index.ts'
import { projectRoot } from '#src/project.ts'
import { loadWords } from '#src/words/load.ts'
import { habits } from './habits.ts'
import { reportOf, writeReport } from './report.ts'
import { runSeason } from './run-season.ts'

const { values } = parseArgs({
  options: {
    seed: { type: 'string' },
    weeks: { type: 'string' },
    json: { type: 'boolean' },
    write: { type: 'boolean' },
  },
})
const seed = Number(values.seed ?? 1)
const weeks = Number(values.weeks ?? habits.weeks)
if (!Number.isInteger(seed) || !Number.isInteger(weeks) || weeks < 1 || weeks > 52) {
  process.stderr.write('Cannot read that: --seed and --weeks are whole numbers, weeks from 1 to 52\n')
  process.exitCode = 1
} else {
  const tally = await runSeason(commands, { ...habits, weeks }, seed)
  const report = reportOf(tally, { seed, weeks })
  const text = writeReport(report, loadWords())
  if (values.write === true) writeFileSync(path.join(projectRoot(), 'docs', 'season.md'), text)
  process.stdout.write(values.json === true ? `${JSON.stringify(report)}\n` : text)
}
