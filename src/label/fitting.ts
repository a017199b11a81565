import type { LabelEntry } from './entry.ts'
import type { NamedTurf, NamedWeed } from './printed.ts'
import type { RateLine, Season } from './rate-line.ts'
import type { Situation } from './situation.ts'

/** Does this group of turfs cover the taxon? */
export function coversTurf(turfs: readonly NamedTurf[], taxon: string): boolean {
  return turfs.some(({ taxa }) => taxa.includes(taxon))
}

/** Does a rate line list every turf of the area? */
export function listsTurfs(line: RateLine, turfs: readonly string[]): boolean {
  return turfs.every((taxon) => coversTurf(line.turfs, taxon))
}

/** Does a rate line list the weed, by taxon or by the label's own words? A line that names no weeds is for all. */
export function listsWeed(line: RateLine, weed: string): boolean {
  return line.weeds === undefined || line.weeds.some((named) => isWeed(named, weed))
}

function isWeed({ words, taxa = [] }: NamedWeed, weed: string): boolean {
  return taxa.includes(weed) || plain(words) === plain(weed)
}

/** Small letters and single blanks, without an ending `s`, so that "Nutsedges" is "nutsedge". */
function plain(words: string): string {
  return words
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[\s-]+/g, ' ')
    .trim()
    .replace(/(?<=[^s])s$/, '')
}

export function isInSeason(line: RateLine, season: Season): boolean {
  return line.seasons === undefined || line.seasons.includes(season)
}

export function isForTreatment(line: RateLine, treatment: 'first' | 'repeat'): boolean {
  return line.treatment === 'any' || line.treatment === treatment
}

/** Are all turfs of the area dormant, some green, or has nobody said? */
export function dormancyOf({ turfs, dormant }: Situation): 'dormant' | 'green' | 'unknown' {
  if (dormant === undefined) return 'unknown'
  if (dormant === 'all') return 'dormant'
  if (dormant.length === 0) return 'green'
  if (turfs === 'unknown') return 'unknown'
  return turfs.every((taxon) => dormant.includes(taxon)) ? 'dormant' : 'green'
}

/** Entries that list this weed on this turf, each with the lines that do. Both are taxa, the weed may be words. */
export function productsFor(
  book: readonly LabelEntry[],
  weed: string,
  turf: string,
): readonly { readonly entry: LabelEntry; readonly lines: readonly RateLine[] }[] {
  return book
    .filter(({ excludedTurfs = [] }) => !coversTurf(excludedTurfs, turf))
    .map((entry) => ({ entry, lines: entry.rateLines.filter((line) => lists(line, weed, turf)) }))
    .filter(({ lines }) => lines.length > 0)
}

function lists(line: RateLine, weed: string, turf: string): boolean {
  return line.weeds !== undefined && listsTurfs(line, [turf]) && listsWeed(line, weed)
}
