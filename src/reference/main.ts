/**
 * Writes docs/commands.md from the commands, their words and the notes on facts: `npm run reference`. With `--check`
 * it writes nothing and ends with status 1 when the file is stale.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { commands } from '#commands/index.ts'
import { projectRoot } from '#src/project.ts'
import { loadWords } from '#src/words/load.ts'
import { notes } from './facts.ts'
import { writeReference } from './write-reference.ts'

const place = path.join(projectRoot(), 'docs', 'commands.md')
const text = writeReference(commands, loadWords(), notes)
const isCurrent = existsSync(place) && readFileSync(place, 'utf8') === text

if (process.argv.includes('--check')) {
  process.stdout.write(
    isCurrent ? 'docs/commands.md is current\n' : 'docs/commands.md is stale: npm run reference\n',
  )
  process.exitCode = isCurrent ? 0 : 1
} else {
  writeFileSync(place, text)
  process.stdout.write(`${commands.length} commands in docs/commands.md\n`)
}
