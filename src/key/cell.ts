import type { Cell, Character } from './schema.ts'

export type Provenance = { readonly memory: boolean; readonly sources: readonly string[] }
export type CellResult =
  | { readonly ok: true; readonly value: Cell }
  | { readonly ok: false; readonly error: string }

/** Reads one cell of the table of plants: `a|b` states, `1-5` a range, empty unknown, `na` no such part. */
export function readCell(text: string, character: Character, provenance: Provenance): CellResult {
  const trimmed = text.trim()
  if (trimmed === '') return { ok: true, value: { kind: 'blank' } }
  if (trimmed === 'na') return { ok: true, value: { kind: 'na' } }
  return character.kind === 'range' || character.kind === 'month'
    ? readRange(trimmed, character, provenance)
    : readStates(trimmed, character, provenance)
}

function readRange(text: string, character: Character, provenance: Provenance): CellResult {
  const match = /^(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)$/.exec(text)
  if (match === null) return { ok: false, error: `"${text}" is not a range such as 2-5` }
  const from = Number(match[1])
  const to = Number(match[2])
  if (from > to) return { ok: false, error: `"${text}" ends before it begins` }
  const grid = character.grid ?? []
  if (to > (grid.at(-1) ?? Number.POSITIVE_INFINITY)) {
    return { ok: false, error: `"${text}" is above the highest number of this character: ${grid.at(-1)}` }
  }
  return { ok: true, value: { kind: 'range', from, to, ...provenance } }
}

function readStates(text: string, character: Character, provenance: Provenance): CellResult {
  const states = text.split('|').map((state) => state.trim())
  const known = new Set(character.states.map((state) => state.id))
  const unknown = states.filter((state) => !known.has(state))
  if (unknown.length > 0) {
    return { ok: false, error: `unknown state "${unknown.join('", "')}": one of ${[...known].join(', ')}` }
  }
  return { ok: true, value: { kind: 'states', states, ...provenance } }
}
