/**
 * What is kept about somebody, and taking it out: `npm run privacy -- list --words "NAME"` (`--texts` shows all of it),
 * `person --key KEY`, `customer --site NAME`, `record --number N`; `--crew KEY` where there are several crews.
 * docs/privacy.md says what stays, and why.
 */
import { parseArgs } from 'node:util'
import { runProgram } from '#src/command-line.ts'
import { loadOwnEnvironment } from '#src/project.ts'
import { livePlaces, readSettings, SettingsError } from '#src/settings.ts'
import { WrongDatabase } from '#src/store/migrate.ts'
import { openDatabase } from '#src/store/open.ts'
import { PrivacyError, type PrivacyWish, privacy } from './privacy.ts'

async function main(args: readonly string[]): Promise<void> {
  loadOwnEnvironment()
  const { address } = livePlaces(readSettings(process.env))
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: {
      crew: { type: 'string' },
      words: { type: 'string' },
      texts: { type: 'boolean', default: false },
      key: { type: 'string' },
      site: { type: 'string' },
      number: { type: 'string' },
    },
  })
  const database = await openDatabase(address, 'live')
  try {
    const lines = await privacy(database, wishOf(positionals[0], values), {
      ...(values.crew === undefined ? {} : { crew: values.crew }),
      nowMs: Date.now(),
    })
    process.stdout.write(`${lines.join('\n')}\n`)
  } finally {
    await database.close()
  }
}

function wishOf(
  what: string | undefined,
  values: Readonly<Partial<Record<'words' | 'key' | 'site' | 'number', string>>> & {
    readonly texts: boolean
  },
): PrivacyWish {
  if (what === 'list' && values.words !== undefined)
    return { kind: 'list', words: values.words, texts: values.texts }
  if (what === 'person' && values.key !== undefined) return { kind: 'person', key: values.key }
  if (what === 'customer' && values.site !== undefined) return { kind: 'customer', site: values.site }
  const number = Number(values.number)
  if (what === 'record' && Number.isInteger(number) && number > 0) return { kind: 'record', number }
  throw new PrivacyError(
    'Cannot read that: list --words "NAME" [--texts], person --key KEY, customer --site NAME, or record --number N',
  )
}

runProgram(main, [SettingsError, PrivacyError, WrongDatabase])
