import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import type { KnownTaxa } from './check.ts'
import { checkEntry } from './check.ts'
import type { LabelEntry } from './entry.ts'
import type { BookProblem, EntryProblem } from './problem.ts'
import { problem } from './problem.ts'
import { readShape } from './shape.ts'

/** More entries than this in one file are a wrong file. */
export const MOST_ENTRIES = 500

/** Reads one entry from JSON: its shape first, then all that the shape cannot tell. */
export function readEntry(json: unknown, taxa?: KnownTaxa): Result<LabelEntry, readonly EntryProblem[]> {
  const shape = readShape(json)
  if (!shape.ok) return shape
  const problems = checkEntry(shape.value, taxa)
  return problems.length > 0 ? fail(problems) : shape
}

/**
 * Reads a label book from the text of a JSON file, `{ "entries": [ … ] }`. All or nothing: with any problem no entry
 * is given, and every problem of every row is.
 */
export function readBook(
  text: string,
  taxa?: KnownTaxa,
): Result<readonly LabelEntry[], readonly BookProblem[]> {
  const rows = rowsOf(text)
  if (!rows.ok) return fail([{ ...rows.error, row: 0, name: null }])
  const read = rows.value.map((json, n) => ({ json, row: n + 1, entry: readEntry(json, taxa) }))
  const problems = read.flatMap(({ json, row, entry }) =>
    entry.ok ? [] : entry.error.map((one) => ({ ...one, row, name: nameOf(json) })),
  )
  const entries = read.flatMap(({ entry }) => (entry.ok ? [entry.value] : []))
  const all = [...problems, ...namedTwice(rows.value)]
  return all.length > 0 ? fail(all) : ok(entries)
}

function rowsOf(text: string): Result<readonly unknown[], EntryProblem> {
  const json = readJson(text.replace(/^\uFEFF/, ''))
  if (json === undefined) return fail(problem('', 'file-not-json'))
  const entries = typeof json === 'object' && json !== null && 'entries' in json ? json.entries : undefined
  if (!Array.isArray(entries) || entries.length === 0) return fail(problem('entries', 'file-no-entries'))
  if (entries.length > MOST_ENTRIES) return fail(problem('entries', 'file-too-many', { limit: MOST_ENTRIES }))
  return ok(entries)
}

function readJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

function nameOf(json: unknown): string | null {
  const name = typeof json === 'object' && json !== null && 'name' in json ? json.name : null
  return typeof name === 'string' ? name.slice(0, 80) : null
}

function namedTwice(rows: readonly unknown[]): readonly BookProblem[] {
  const names = rows.map((row) => nameOf(row)?.trim().toLowerCase() ?? null)
  return names.flatMap((name, n) => {
    if (name === null || names.indexOf(name) === n) return []
    const shown = nameOf(rows[n]) ?? ''
    return [{ ...problem('name', 'name-twice', { name: shown }), row: n + 1, name: shown }]
  })
}
