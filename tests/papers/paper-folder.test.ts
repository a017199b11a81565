import {
  existsSync,
  lutimesSync,
  mkdirSync,
  mkdtempSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { paperFolder } from '#src/papers/paper-folder.ts'

const NOW_MS = Date.parse('2026-07-04T12:00:00Z')
const HOUR_MS = 60 * 60 * 1000

let within = ''
beforeEach(() => {
  within = mkdtempSync(path.join(tmpdir(), 'swardhand-test-'))
})
afterEach(() => rmSync(within, { recursive: true, force: true }))

/** A folder whose one file, and which itself, were last written so many hours ago. */
function left(name: string, hours: number, fileHours = hours): string {
  const folder = path.join(within, name)
  const file = path.join(folder, 'records.csv')
  mkdirSync(folder)
  writeFileSync(file, 'x')
  const ago = (one: number) => new Date(NOW_MS - one * HOUR_MS)
  utimesSync(file, ago(fileHours), ago(fileHours))
  utimesSync(folder, ago(hours), ago(hours))
  return folder
}

test.each([
  ['of two days ago goes, with its files', 'swardhand-paper-aB3xYz', 48, 48, false],
  ['of an hour ago stays: somebody may be sending it', 'swardhand-paper-aB3xYz', 1, 1, true],
  ['that is old but still written to stays', 'swardhand-paper-aB3xYz', 48, 1, true],
  ['of another kind stays', 'swardhand-season-aB3xYz', 48, 48, true],
  ['that only begins alike stays', 'swardhand-paper-aB3xYz-kept', 48, 48, true],
])('a folder %s', async (_, name, hours, fileHours, stays) => {
  const folder = left(name, hours, fileHours)
  const made = await paperFolder({ within, nowMs: NOW_MS })
  expect(existsSync(made)).toBe(true)
  expect(existsSync(folder)).toBe(stays)
})

test('what a link of that name leads to stays', async () => {
  const kept = left('elsewhere', 48)
  const link = path.join(within, 'swardhand-paper-aB3xYz')
  symlinkSync(kept, link)
  lutimesSync(link, new Date(NOW_MS - 48 * HOUR_MS), new Date(NOW_MS - 48 * HOUR_MS))
  await paperFolder({ within, nowMs: NOW_MS })
  expect(existsSync(path.join(kept, 'records.csv'))).toBe(true)
})
