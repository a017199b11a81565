import { big, compareNumbers } from '#src/quantity/big.ts'
import { parseRate } from '#src/quantity/parse-rate.ts'
import type { Rate } from '#src/quantity/rate.ts'
import { isSameForm } from '#src/quantity/rate.ts'
import { inUnitOf } from './amounts.ts'
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
  readonly kind: 'added' | 'removed' | 'changed' | 'ten-times' | 'tenth'
  readonly old?: string
  readonly new?: string
}

/** From this ratio on a change looks like a slipped decimal point rather than a new rate (common practice, no source). */
const SLIP_RATIO = 5

/** Every rate and maximum that two revisions do not share; a factor of about ten is pointed out by its kind. */
export function compareRevisions(before: LabelEntry, after: LabelEntry): readonly RevisionChange[] {
  const old = figuresOf(before)
  const now = figuresOf(after)
  const removed = old.filter(({ id }) => !now.some((figure) => figure.id === id))
  return [
    ...now.flatMap(({ id, text }) =>
      changeOf(id, old.find((figure) => figure.id === id)?.text, text, { before, after }),
    ),
    ...removed.map(({ id, text }): RevisionChange => ({ id, kind: 'removed', old: text })),
  ]
}

function changeOf(
  id: string,
  old: string | undefined,
  text: string,
  { before, after }: { readonly before: LabelEntry; readonly after: LabelEntry },
): readonly RevisionChange[] {
  if (old === undefined) return [{ id, kind: 'added', new: text }]
  const [was, is] = [rateOf(before, old), rateOf(after, text)]
  if (isSameFigure(was, is)) return []
  return [{ id, kind: kindOf(was, is), old, new: text }]
}

function kindOf(was: Rate, is: Rate): RevisionChange['kind'] {
  const same = isSameForm(was, is) ? is : was.kind === 'area' && is.kind === 'area' ? inUnitOf(is, was) : null
  if (same === null || was.of !== is.of) return 'changed'
  const ratio = big(same.value).div(was.value)
  if (compareNumbers(ratio, SLIP_RATIO) >= 0) return 'ten-times'
  return compareNumbers(ratio.times(SLIP_RATIO), 1) <= 0 ? 'tenth' : 'changed'
}
