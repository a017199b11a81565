import type { LabelEntry } from './entry.ts'
import { coversTurf, dormancyOf, isForTreatment, isInSeason, listsTurfs, listsWeed } from './fitting.ts'
import type { RateLine } from './rate-line.ts'
import type { AllowSettings, Situation } from './situation.ts'
import type { Reason } from './verdict.ts'
import { reason } from './verdict.ts'

/** The rate lines that are still possible, and what was found on the way to them. */
export interface Narrowed {
  readonly lines: readonly RateLine[]
  readonly reasons: readonly Reason[]
}

interface Asked {
  readonly entry: LabelEntry
  readonly situation: Situation
  readonly settings: AllowSettings
}

type Step = (lines: readonly RateLine[], asked: Asked) => Narrowed

/** Turf, dormancy, weed, season, treatment, in this order; a step that leaves nothing keeps what came in. */
const STEPS: readonly Step[] = [byTurf, byDormancy, byWeed, bySeason, byTreatment]

/** Keeps the rate lines that fit the situation; where none fits, says so and keeps those of the step before. */
export function narrowLines(asked: Asked): Narrowed {
  const start = chosenOr(asked)
  const found = STEPS.reduce<Narrowed>((so, step) => {
    const next = step(so.lines, asked)
    return { lines: next.lines, reasons: [...so.reasons, ...next.reasons] }
  }, start)
  return { lines: found.lines, reasons: [...found.reasons, ...askWhich(found.lines)] }
}

function chosenOr({ entry, situation }: Asked): Narrowed {
  if (situation.line === undefined) return { lines: entry.rateLines, reasons: [] }
  const chosen = entry.rateLines.filter(({ id }) => id === situation.line)
  if (chosen.length > 0) return { lines: chosen, reasons: [] }
  return { lines: entry.rateLines, reasons: [reason('question', 'line-unknown', { line: situation.line })] }
}

function askWhich(lines: readonly RateLine[]): Reason[] {
  if (lines.length < 2) return []
  return [reason('question', 'choose-line', { lines: lines.length })]
}

function nameOf(taxon: string, { names }: Situation): string {
  return names?.[taxon] ?? taxon
}

function byTurf(lines: readonly RateLine[], { entry, situation }: Asked): Narrowed {
  const { turfs } = situation
  if (turfs === 'unknown' || turfs.length === 0) return { lines, reasons: [reason('hold', 'turf-unknown')] }
  const fitting = lines.filter((line) => listsTurfs(line, turfs))
  const reasons = [...excluded(turfs, entry, situation), ...unlisted(turfs, lines, { entry, situation })]
  if (fitting.length > 0) return { lines: fitting, reasons }
  const split =
    reasons.length > 0 ? [] : [reason('hold', 'turf-split', { turfs: turfWords(turfs, situation) })]
  return { lines, reasons: [...reasons, ...split] }
}

function excluded(
  turfs: readonly string[],
  { excludedTurfs = [] }: LabelEntry,
  situation: Situation,
): Reason[] {
  return excludedTurfs.flatMap((group) =>
    turfs
      .filter((taxon) => coversTurf([group], taxon))
      .map((taxon) => reason('refusal', 'turf-excluded', { turf: nameOf(taxon, situation) }, group)),
  )
}

/** Turfs that no line lists are refused; so is a turf that only other lines than the chosen one list. */
function unlisted(
  turfs: readonly string[],
  lines: readonly RateLine[],
  { entry, situation }: Pick<Asked, 'entry' | 'situation'>,
): Reason[] {
  return turfs
    .filter((taxon) => !lines.some((line) => coversTurf(line.turfs, taxon)))
    .map((taxon) => {
      const isElsewhere = entry.rateLines.some((line) => coversTurf(line.turfs, taxon))
      const id = isElsewhere ? 'turf-not-on-line' : 'turf-not-listed'
      return reason('refusal', id, { turf: nameOf(taxon, situation) }, lines[0])
    })
}

function turfWords(turfs: readonly string[], situation: Situation) {
  return { all: turfs.map((taxon) => nameOf(taxon, situation)), join: 'and' } as const
}

function byDormancy(lines: readonly RateLine[], { situation }: Asked): Narrowed {
  const state = dormancyOf(situation)
  const others = lines.filter(({ dormantOnly }) => dormantOnly !== true)
  if (state === 'dormant' || others.length === lines.length) return { lines, reasons: [] }
  const [first] = lines
  if (state === 'green') {
    return others.length > 0
      ? { lines: others, reasons: [] }
      : { lines, reasons: [reason('refusal', 'dormant-only', {}, first)] }
  }
  return { lines, reasons: others.length > 0 ? [] : [reason('question', 'dormant-unknown', {}, first)] }
}

function byWeed(lines: readonly RateLine[], asked: Asked): Narrowed {
  const { weed } = asked.situation
  if (weed === undefined) return { lines, reasons: [] }
  const fitting = lines.filter((line) => listsWeed(line, weed))
  return fitting.length > 0
    ? { lines: fitting, reasons: [] }
    : { lines, reasons: [unlistedWeed(weed, asked)] }
}

/** A hold by federal rule, which does not count it as misuse; a refusal where label or state are narrower. */
function unlistedWeed(weed: string, { entry, situation, settings }: Asked): Reason {
  const named = { weed: nameOf(weed, situation) }
  if (entry.limits.onlyListedWeeds)
    return reason('refusal', 'weed-only-listed', named, entry.limits.onlyListedWeeds)
  const { state } = situation
  if (state !== undefined && settings.unlistedWeedRefusedIn.includes(state)) {
    return reason('refusal', 'weed-refused-in-state', { ...named, state })
  }
  return reason('hold', 'weed-not-listed', named)
}

function bySeason(lines: readonly RateLine[], { situation: { season } }: Asked): Narrowed {
  if (season === undefined) return { lines, reasons: [] }
  const fitting = lines.filter((line) => isInSeason(line, season))
  if (fitting.length > 0) return { lines: fitting, reasons: [] }
  return { lines, reasons: [reason('refusal', 'season-not-listed', { season }, lines[0])] }
}

function byTreatment(lines: readonly RateLine[], { situation: { treatment } }: Asked): Narrowed {
  if (treatment === undefined) return { lines, reasons: [] }
  const fitting = lines.filter((line) => isForTreatment(line, treatment))
  if (fitting.length > 0) return { lines: fitting, reasons: [] }
  return { lines, reasons: [reason('refusal', 'treatment-not-listed', { treatment }, lines[0])] }
}
