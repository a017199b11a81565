import type { RateChange } from '#src/calculator/rate/compare.ts'
import { compareRates } from '#src/calculator/rate/compare.ts'
import type { Step } from '#src/calculator/worked.ts'
import { compareNumbers } from '#src/quantity/big.ts'
import { parseRate } from '#src/quantity/parse-rate.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { isSameForm } from '#src/quantity/rate.ts'
import { figuresFor } from './amounts.ts'
import type { LabelEntry } from './entry.ts'
import { rateOf, readingOf } from './figures.ts'
import type { EntryProblem } from './problem.ts'
import { problem } from './problem.ts'

/** A figure that a second person types again from the label: where it stands and what was entered. */
export interface RetypeFigure {
  /** `rate.spring.0.high`, `application.0.1`, `year.0.0`. */
  readonly id: string
  readonly text: string
}

/** All rates and maxima of an entry, by ids that stay the same from one revision to the next. */
function figuresOf(entry: LabelEntry): readonly RetypeFigure[] {
  const { perApplication = [], perYear = [] } = entry.limits
  return [
    ...entry.rateLines.flatMap(({ id, rates }) =>
      rates.flatMap(({ low, high }, n) => [
        ...(low === undefined ? [] : [{ id: `rate.${id}.${n}.low`, text: low }]),
        { id: `rate.${id}.${n}.high`, text: high },
      ]),
    ),
    ...perApplication.flatMap(({ rates }, n) =>
      rates.map((text, m) => ({ id: `application.${n}.${m}`, text })),
    ),
    ...perYear.flatMap(({ rates }, n) => rates.map((text, m) => ({ id: `year.${n}.${m}`, text }))),
  ]
}

/** The rates and maxima of a draft that are new or other than in the live revision. */
export function figuresToRetype(draft: LabelEntry, live: LabelEntry | null): readonly RetypeFigure[] {
  const before = live === null ? [] : figuresOf(live)
  return figuresOf(draft).filter(({ id, text }) => {
    const old = before.find((figure) => figure.id === id)
    if (old === undefined || live === null || live.form !== draft.form) return true
    return !isSameFigure(rateOf(draft, text), rateOf(live, old.text))
  })
}

function isSameFigure(a: Rate, b: Rate): boolean {
  return isSameForm(a, b) && compareNumbers(a.value, b.value) === 0
}

/** Who typed the draft, who typed it again, and what is live now. */
export interface Retyping {
  readonly live: LabelEntry | null
  readonly enteredBy: string
  readonly retypedBy: string
}

/**
 * May the draft go live? Only when a second person has typed every new or changed rate and maximum again, the same
 * number in the same unit. Gives what is in the way; nothing when it may.
 */
export function retypeMatches(
  draft: LabelEntry,
  retyped: Readonly<Record<string, string>>,
  { live, enteredBy, retypedBy }: Retyping,
): readonly EntryProblem[] {
  const figures = figuresToRetype(draft, live)
  if (figures.length === 0) return []
  if (enteredBy === retypedBy) return [problem('', 'retype-same-person')]
  return figures.flatMap((figure) => checkRetyped(figure, retyped[figure.id], draft))
}

function checkRetyped(
  { id, text }: RetypeFigure,
  typed: string | undefined,
  draft: LabelEntry,
): EntryProblem[] {
  if (typed === undefined || typed.trim() === '') return [problem(id, 'retype-missing')]
  const read = parseRate(typed, readingOf(draft.form))
  if (!read.ok) return [problem(id, 'retype-unreadable', { typed })]
  const entered = rateOf(draft, text)
  if (!isSameForm(read.value, entered)) return [problem(id, 'retype-other-unit', { typed })]
  return compareNumbers(read.value.value, entered.value) === 0
    ? []
    : [problem(id, 'retype-other-number', { typed })]
}

/** What became of one rate or maximum from one revision to the next. */
export interface RevisionChange {
  readonly id: string
  readonly kind: 'added' | 'removed' | RateChange
  readonly old?: string
  readonly fresh?: string
  /** Points out what looks like a slip: a shifted point, acre for 1000 ft2. */
  readonly message?: Step
}

/** Every rate and maximum that two revisions do not share; what looks like a slip of typing is pointed out. */
export function compareRevisions(before: LabelEntry, after: LabelEntry): readonly RevisionChange[] {
  const old = figuresOf(before)
  const fresh = figuresOf(after)
  const isGone = ({ id }: RetypeFigure) => !fresh.some((figure) => figure.id === id)
  return [
    ...fresh.flatMap(({ id, text }) => {
      const was = old.find((figure) => figure.id === id)
      if (was === undefined) return [{ id, kind: 'added', fresh: text } as const]
      return changeOf(id, { text: was.text, entry: before }, { text, entry: after })
    }),
    ...old.filter(isGone).map(({ id, text }) => ({ id, kind: 'removed', old: text }) as const),
  ]
}

interface InEntry {
  readonly text: string
  readonly entry: LabelEntry
}

function changeOf(id: string, old: InEntry, fresh: InEntry): readonly RevisionChange[] {
  const [was, is] = [rateOf(old.entry, old.text), rateOf(fresh.entry, fresh.text)]
  if (isSameFigure(was, is)) return []
  const compared = compareRates(was, is, figuresFor(fresh.entry))
  const kind = compared.ok && compared.value.change !== 'same' ? compared.value.change : 'changed'
  const message = compared.ok ? compared.value.message : undefined
  return [{ id, kind, old: old.text, fresh: fresh.text, ...(message === undefined ? {} : { message }) }]
}
