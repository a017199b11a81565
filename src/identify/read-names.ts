import { indexOf, rank } from '#src/desk/suggest.ts'
import { findTaxa, taxaNamed } from '#src/key/index.ts'
import { remember } from '#src/memory/remember.ts'
import { plants, taxonById, turfTaxa } from '#src/plants.ts'

/** What grows on a lawn as somebody typed it: taxa to guard, or the piece that was not clear and what it may mean. */
export type ReadTurf =
  | { readonly ok: true; readonly taxa: readonly string[] }
  | { readonly ok: false; readonly typed: string; readonly nearest: readonly string[] }

/** A turf that nobody knows guards every grass that can be a lawn. */
export const UNKNOWN_TURF = 'unknown'
const NOBODY_KNOWS = /^(?:unknown|\?+|not sure|don.?t know|no s[eé])$/i

/** Several grasses stand in one text: "Kentucky bluegrass and perennial ryegrass", "bermuda / rye". */
const BETWEEN = /\s*[,;+/&]\s*|\s+(?:and|with|y|con)\s+/i

/**
 * Reads a typed turf. A name that several grasses share ("fescue", "ryegrass") guards all of them, which is the safe
 * side; a slip of the finger is asked about, never guessed.
 */
export function readTurf(typed: string): ReadTurf {
  if (NOBODY_KNOWS.test(typed.trim())) return { ok: true, taxa: [] }
  const whole = readOne(typed)
  const parts = typed.split(BETWEEN).filter((part) => part !== '')
  if (whole.ok || parts.length < 2) return whole
  const taxa: string[] = []
  for (const part of parts) {
    const read = readOne(part)
    if (!read.ok) return read
    taxa.push(...read.taxa)
  }
  return { ok: true, taxa: [...new Set(taxa)] }
}

const isTurf = (id: string) => (taxonById(id)?.role ?? 'weed') !== 'weed'

/** A crew types the few names of its own turf again and again: each is held against all names of the table once. */
const MOST_TYPED = 1000
const readOne = remember(readName, MOST_TYPED)

function readName(typed: string): ReadTurf {
  const key = plants()
  const matches = findTaxa(key, typed)
  const exact = matches[0]?.quality === 0 ? taxaNamed(key, typed).filter(isTurf) : []
  if (exact.length > 0) return { ok: true, taxa: exact }
  const partly = matches.filter(({ quality }) => quality === 2).flatMap(({ ids }) => ids.filter(isTurf))
  if (partly.length > 0) return { ok: true, taxa: [...new Set(partly)] }
  return { ok: false, typed, nearest: nearestTurfs(typed) }
}

const NEAREST = 5
let turfNames: ReturnType<typeof indexOf> | null = null

/** Grasses whose name looks most like what was typed, for a question. */
function nearestTurfs(typed: string): string[] {
  turfNames ??= indexOf(
    turfTaxa().map(({ id, names, scientificName, otherNames, spanishNames }) => {
      return { name: id, also: [names.en, scientificName, ...otherNames, ...spanishNames] }
    }),
  )
  return rank(turfNames, typed)
    .slice(0, NEAREST)
    .map(({ name }) => name)
}

/** A guess only steers which questions are asked, so the nearest name will do. Null when nothing is near. */
export function readGuess(typed: string): { readonly words: string; readonly ids: string[] } | null {
  const [best] = findTaxa(plants(), typed)
  return best === undefined ? null : { words: typed.trim(), ids: [...best.ids] }
}
