import { say, type Text } from '#src/conversation/text.ts'
import type { SpotReading } from '#src/efficacy/rating.ts'

/** `percent` and `por ciento` as the sign that they are. */
const withSign = (text: string) => text.replace(/(?<=\d)\s*(?:per\s?cent|pct|por\s?ciento)\b\.?/gi, '%')

/** A whole percent, `70`, `70 %` or `70 percent`; null for anything else. */
export function readPercent(text: string): number | null {
  const found = /^(\d{1,3})\s*%?$/.exec(withSign(text).trim())
  const value = Number(found?.[1])
  return found !== null && value <= 100 ? value : null
}

/** `70`, or `70/15` with the living weed cover behind it. */
export function readSpot(text: string): SpotReading | null {
  const [brown, cover, ...more] = text.split('/').map(readPercent)
  if (brown == null || cover === null || more.length > 0) return null
  return { brownPercent: brown, ...(cover === undefined ? {} : { coverPercent: cover }) }
}

export type PlotReading = { readonly plot: string } & SpotReading

/**
 * Readings of several plots from one line: `70, 80` in the order of the plots, or `1=70; 2=80`. One plot may be left
 * out by naming the others.
 * @param plots flags of the plots, in order
 */
export function readPercents(
  text: string,
  plots: readonly string[],
):
  | { readonly ok: true; readonly value: readonly PlotReading[] }
  | { readonly ok: false; readonly problem: Text } {
  const parts = partsOf(withSign(text))
  const read = parts.map((part) => readPart(part, plots))
  const wrong = read.find((one) => 'problem' in one)
  if (wrong !== undefined && 'problem' in wrong) return { ok: false, problem: wrong.problem }
  const named = read.flatMap((one) => ('plot' in one ? [one] : []))
  const bare = read.flatMap((one) => ('problem' in one || 'plot' in one ? [] : [one]))
  const open = plots.filter((plot) => !named.some((one) => one.plot === plot))
  if (parts.length === 0 || (bare.length > 0 && bare.length !== open.length))
    return {
      ok: false,
      problem: say('visits.percents-count', { plots: { all: [...plots] }, count: plots.length }),
    }
  const inOrder = bare.map((one, at) => ({ plot: open[at] ?? '', ...one }))
  return {
    ok: true,
    value: [...named, ...inOrder].sort((a, b) => plots.indexOf(a.plot) - plots.indexOf(b.plot)),
  }
}

/** A comma, a semicolon or a new line parts them; bare numbers may stand with blanks alone. */
function partsOf(text: string): string[] {
  const parts = text.split(/[;,\n]/).map((one) => one.trim())
  const [first = ''] = parts
  const split = parts.length === 1 && /^[\d%/]+(\s+[\d%/]+)+$/.test(first) ? first.split(/\s+/) : parts
  return split.filter((one) => one !== '')
}

function readPart(
  part: string,
  plots: readonly string[],
): PlotReading | SpotReading | { readonly problem: Text } {
  const found = /^(?:(.+?)\s*[=:]\s*)?([\d\s%/]+)$/.exec(part)
  const spot = found?.[2] === undefined ? null : readSpot(found[2])
  if (spot === null) return { problem: say('visits.percent-wrong', { typed: part }) }
  const name = found?.[1]
  if (name === undefined) return spot
  const plot = plots.find((one) => one.toLowerCase() === name.trim().toLowerCase())
  return plot === undefined
    ? { problem: say('recheck.rating-plot-unknown', { plot: name }) }
    : { plot, ...spot }
}
