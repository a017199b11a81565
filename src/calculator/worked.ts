/** What stands in a sentence: a number with its unit, a bare number, typed text, a sentence by id, or several of them. */
export type Figure =
  | string
  | number
  | { readonly value: string; readonly unit: string }
  | { readonly say: string; readonly with?: Figures }
  /** Words of our own data, such as the name of a source; a bare text is what somebody typed. */
  | { readonly literal: string }
  | { readonly all: readonly Figure[]; readonly join?: 'and' | 'or' | 'lines' }

export type Figures = Readonly<Record<string, Figure>>

/** One step of the working, by the id of its sentence. */
export interface Step {
  readonly id: string
  readonly with: Figures
}

/** What somebody has to know, from mildest to strictest. */
export type FindingOutcome = 'heads-up' | 'question' | 'hold' | 'refusal'

/** Something that goes with a result or stands in its way. */
export interface Finding extends Step {
  readonly outcome: FindingOutcome
}

/** A result with the steps that led to it and what to mind about it. */
export interface Worked<T> {
  readonly ok: true
  readonly value: T
  readonly working: readonly Step[]
  readonly findings: readonly Finding[]
}

/** Either the result or everything that stands in its way, never an empty list. */
export type Calculated<T> = Worked<T> | Blocked

export interface Blocked {
  readonly ok: false
  readonly problems: readonly Finding[]
}

export function worked<T>(value: T, working: readonly Step[], findings: readonly Finding[] = []): Worked<T> {
  return { ok: true, value, working, findings }
}

export function blocked(...problems: readonly Finding[]): Blocked {
  if (problems.length === 0) throw new RangeError('Cannot be blocked by nothing')
  return { ok: false, problems }
}

export function step(id: string, figures: Figures = {}): Step {
  return { id, with: figures }
}

export function finding(outcome: FindingOutcome, id: string, figures: Figures = {}): Finding {
  return { id, outcome, with: figures }
}

const STRICTNESS = ['answer', 'heads-up', 'question', 'hold', 'refusal'] as const

/** The strictest outcome among findings; `answer` when there is none. */
export function strictest(findings: readonly Finding[]): 'answer' | FindingOutcome {
  const level = Math.max(0, ...findings.map((one) => STRICTNESS.indexOf(one.outcome)))
  return STRICTNESS[level] ?? 'refusal'
}
