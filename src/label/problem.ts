import type { Param } from '#src/conversation/text.ts'
import type { ProblemId } from './ids.ts'

/** What is wrong with one field of a label entry: where, which sentence, and what goes into it. */
export interface EntryProblem {
  /** The field from the entry on: `rateLines[0].rates[1].high`. */
  readonly path: string
  readonly id: string
  readonly with: Readonly<Record<string, Param>>
}

/** A problem of a file, with the row of the entry, counted from 1, and its name where it has one. */
export interface BookProblem extends EntryProblem {
  readonly row: number
  readonly name: string | null
}

export function problem(path: string, id: ProblemId, parameters: EntryProblem['with'] = {}): EntryProblem {
  return { path, id: `label.${id}`, with: parameters }
}

/** `['rateLines', 0, 'high']` as `rateLines[0].high`. */
export function pathText(path: readonly PropertyKey[]): string {
  return path.reduce<string>((so, part) => {
    if (typeof part === 'number') return `${so}[${part}]`
    return so === '' ? String(part) : `${so}.${String(part)}`
  }, '')
}
