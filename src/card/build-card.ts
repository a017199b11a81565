import type { Adjuvant } from '#src/calculator/mix/request.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { addDays } from '#src/desk/clock.ts'
import type { LabelEntry, SignalWord } from '#src/label/entry.ts'
import { adjuvantsOfLabel } from '#src/mixing/adjuvants.ts'
import { toolsFor } from '#src/mixing/measuring-tools.ts'
import type { Rate } from '#src/quantity/rate.ts'
import type { Crew } from '#src/store/crews.ts'
import type { BookEntry, Revision } from '#src/store/labels.ts'
import { type CardBasis, type CardCell, measureLine } from './measure-line.ts'

/** One rate line as it stands on the card. */
export interface CardRow {
  readonly product: string
  readonly signalWord: SignalWord
  readonly line: string
  readonly low: Rate
  readonly high: Rate
  readonly version: string
  /** The last day on which the entry still counts as held against its label. */
  readonly goodUntil: string
  readonly adjuvant: Adjuvant | null
  readonly cells: readonly CardCell[]
  readonly notes: readonly Text[]
}

export interface LeftOff {
  readonly product: string
  readonly because: Text
}

export interface Card {
  readonly rows: readonly CardRow[]
  readonly leftOff: readonly LeftOff[]
}

/** Every rate line of these products that may be sprayed from this sprayer, and why the others may not. */
export function buildCard(
  book: readonly BookEntry[],
  crew: Crew,
  basisOf: (entry: BookEntry) => CardBasis,
): Card {
  const rows: CardRow[] = []
  const leftOff: LeftOff[] = []
  for (const known of book) {
    const { name, live } = known
    if (live === null) leftOff.push({ product: name, because: say('card.waits') })
    else if (live.body.formulation === 'G') leftOff.push({ product: name, because: say('card.granule') })
    else addLines({ rows, leftOff }, { known, live }, crew, basisOf(known))
  }
  return {
    rows,
    leftOff: leftOff.filter((one, at) => leftOff.findIndex((other) => isSame(one, other)) === at),
  }
}

const isSame = (one: LeftOff, other: LeftOff) => JSON.stringify(one) === JSON.stringify(other)

function addLines(
  { rows, leftOff }: { readonly rows: CardRow[]; readonly leftOff: LeftOff[] },
  { known, live }: { readonly known: BookEntry; readonly live: Revision },
  crew: Crew,
  basis: CardBasis,
): void {
  const entry = live.body
  const tools = toolsFor(entry, crew)
  for (const line of entry.rateLines) {
    const measured = measureLine(entry, line, tools, basis)
    if (!measured.ok) {
      leftOff.push({ product: entry.name, because: measured.because })
      continue
    }
    const { low, high, cells, notes } = measured
    rows.push({
      product: entry.name,
      signalWord: entry.signalWord,
      line: line.line,
      low,
      high,
      version: versionOf(entry, live),
      goodUntil: labelGoodUntil(known, crew),
      adjuvant: adjuvantsOfLabel(entry, 'needed')[0] ?? null,
      cells,
      notes,
    })
  }
}

function versionOf({ label }: LabelEntry, { revision }: Revision): string {
  return `${label.version} (${label.date}), entry ${revision}`
}

/** A card on paper cannot be called back: it ends on the day on which an answer would be held. */
function labelGoodUntil({ confirmedOn }: BookEntry, { settings }: Crew): string {
  if (confirmedOn === null) throw new RangeError('An entry that nobody held against its label is on no card')
  return addDays(confirmedOn, settings.labelConfirmDays + settings.labelHoldDaysAfter)
}
