/**
 * `npm run backup` copies a live crew's store and files: `-- --to FOLDER --keep N --json`.
 * `npm run restore -- BACKUP` brings one back into an empty place: the newest, if a folder of backups is named.
 * `npm run move -- --from sqlite:PATH --to postgres://…` moves a store into an empty one, on either engine.
 * Ends with 0 when all is well, 2 when the copy is sound but what was copied is not, 1 when it could not be done.
 */
import { existsSync } from 'node:fs'
import path from 'node:path'
import { parseArgs } from 'node:util'
import { runProgram } from '#src/command-line.ts'
import { loadOwnEnvironment } from '#src/project.ts'
import {
  addressOf,
  DATABASE_URLS,
  isDatabaseUrl,
  livePlaces,
  readSettings,
  SettingsError,
} from '#src/settings.ts'
import type { ChainHead } from '#src/store/chain-heads.ts'
import { WrongDatabase } from '#src/store/migrate.ts'
import type { DatabaseAddress } from '#src/store/open.ts'
import { backUp, finishedIn } from './back-up.ts'
import { BackupError, MANIFEST } from './manifest.ts'
import { moveStore } from './move.ts'
import { restore } from './restore.ts'

/** Two weeks of daily backups. */
const KEEP = 14

async function main([wish, ...args]: readonly string[]): Promise<void> {
  if (wish === 'move') return move(args)
  loadOwnEnvironment()
  const places = livePlaces(readSettings(process.env))
  if (wish === 'restore') return bringBack(args, places)
  const { values } = parseArgs({
    args: [...args],
    options: {
      to: { type: 'string' },
      keep: { type: 'string', default: String(KEEP) },
      json: { type: 'boolean', default: false },
    },
  })
  const keep = Number(values.keep)
  if (!Number.isInteger(keep) || keep < 1)
    throw new BackupError('Cannot read --keep: it is how many backups stay, 1 or more')
  const report = await backUp({
    ...places,
    backupsFolder: path.resolve(values.to ?? places.backupsFolder),
    keep,
    nowMs: Date.now(),
  })
  say(values.json, report, [
    `Backup made and read back: ${report.folder}`,
    `${report.rows} rows, ${report.files} files`,
    ...(report.missing.length > 0
      ? [`MISSING or damaged files that the store names: ${report.missing.join(', ')}`]
      : []),
    ...report.dropped.map((name) => `Earlier backup taken away: ${name}`),
  ])
  if (report.missing.length > 0) process.exitCode = 2
}

async function bringBack(args: readonly string[], places: ReturnType<typeof livePlaces>): Promise<void> {
  const { values, positionals } = parseArgs({
    args: [...args],
    allowPositionals: true,
    options: { json: { type: 'boolean', default: false } },
  })
  const [named] = positionals
  if (named === undefined) throw new BackupError('Cannot restore: name the backup, npm run restore -- FOLDER')
  const folder = chosen(path.resolve(named))
  const report = await restore({ ...places, folder })
  say(values.json, { folder, ...report }, [
    `Restored and compared table by table: ${folder}`,
    `${report.rows} rows, ${report.files} files`,
    'Answers and reminders of the time since then are gone; reminders that had been sent since come again.',
  ])
}

async function move(args: readonly string[]): Promise<void> {
  const { values } = parseArgs({
    args: [...args],
    options: {
      from: { type: 'string', default: '' },
      to: { type: 'string', default: '' },
      json: { type: 'boolean', default: false },
    },
  })
  const report = await moveStore(placeNamed('--from', values.from), placeNamed('--to', values.to))
  say(values.json, report, [
    ...Object.entries(report.tables).map(([name, rows]) => `${name}: ${rows}`),
    `Moved and compared table by table: ${report.rows} rows. The old database is left as it was, and is opened no more.`,
    'Name the new one in DATABASE_URL. Photos and papers stay in FILES_FOLDER.',
  ])
}

function placeNamed(option: string, url: string): DatabaseAddress {
  if (!isDatabaseUrl(url))
    throw new BackupError(`Cannot move: ${option} ${DATABASE_URLS}, as in DATABASE_URL`)
  return addressOf(url)
}

/** The backup itself, or the newest of a folder of backups. */
function chosen(named: string): string {
  if (existsSync(path.join(named, MANIFEST))) return named
  const newest = finishedIn(named).at(-1)
  if (newest === undefined) throw new BackupError(`Cannot restore: there is no backup at ${named}`)
  return path.join(named, newest)
}

function say<Report extends { readonly chains: readonly ChainHead[] }>(
  json: boolean,
  report: Report,
  lines: readonly string[],
): void {
  const broken = report.chains.filter(({ breaks }) => breaks.length > 0)
  if (broken.length > 0) process.exitCode = 2
  const chains = report.chains.map(({ crew, links, head, breaks }) => {
    const holds = breaks.length === 0 ? 'holds' : `BREAKS at ${breaks.map(({ seq }) => seq).join(', ')}`
    return `Records of ${crew}: ${links} links, the chain ${holds}${head === null ? '' : `, newest ${head}`}`
  })
  process.stdout.write(json ? `${JSON.stringify(report)}\n` : `${[...lines, ...chains].join('\n')}\n`)
}

runProgram(main, [SettingsError, BackupError, WrongDatabase])
