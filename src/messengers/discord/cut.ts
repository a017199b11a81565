import { escapeText } from './escape.ts'
import { MESSAGE } from './limits.ts'

/** What a text costs of a limit; never less than its length in UTF-16 units. */
export type Measure = (text: string) => number

export const lengthOf: Measure = (text) => text.length

/** What plain text costs of a message once it is escaped, counted against both limits: characters and bytes. */
export const shownCost: Measure = (text) => {
  const escaped = escapeText(text)
  return Math.max(escaped.length, Math.ceil((Buffer.byteLength(escaped) * MESSAGE.text) / MESSAGE.textBytes))
}

const ELLIPSIS = '…'
const graphemes = new Intl.Segmenter(undefined, { granularity: 'grapheme' })

/**
 * Text that costs at most `most`: whole, or cut after a sentence, else after a word, else between two whole
 * characters, with an ellipsis. Empty when not even that has room.
 */
export function cutText(text: string, most: number, measure: Measure = lengthOf): string {
  if (text.length <= most && measure(text) <= most) return text
  const fits = (part: string) => measure(withEllipsis(part)) <= most
  if (!fits('')) return ''
  const ends = [0, ...endsOfGraphemes(text.slice(0, most + 1))]
  const longest = text.slice(0, ends[lastThat(ends, (end) => fits(text.slice(0, end)))])
  const sense = endOfSense(longest)
  const kept = sense === null ? longest : longest.slice(0, sense)
  return withEllipsis(kept)
}

/** Set apart after a sentence, close to a word that was cut. */
function withEllipsis(text: string): string {
  const kept = text.trimEnd()
  return `${kept}${/[.!?]$/.test(kept) ? ' ' : ''}${ELLIPSIS}`
}

/** The last grapheme of a slice may be half of one, so it does not count. */
function endsOfGraphemes(slice: string): number[] {
  return [...graphemes.segment(slice)].slice(0, -1).map(({ index, segment }) => index + segment.length)
}

/** Index of the last item for which `holds` is true; it is true up to there and false after. The first one holds. */
function lastThat(items: readonly number[], holds: (item: number) => boolean): number {
  let low = 0
  let high = items.length - 1
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if (holds(items[middle] ?? 0)) low = middle
    else high = middle - 1
  }
  return low
}

/** Where the last sentence or word ends, unless that gives away more than half. */
function endOfSense(text: string): number | null {
  for (const end of [/[.!?](?=\s)(?!.*[.!?]\s)/s, /\s+(?=\S*$)/]) {
    const found = end.exec(text)
    if (found === null) continue
    const at = found.index + (end.source.startsWith('\\s') ? 0 : 1)
    if (at > text.length / 2) return at
  }
  return null
}
