import type { Text } from '#src/conversation/text.ts'
import { say } from '#src/conversation/text.ts'
import type { Printed } from './printed.ts'
import type { BookProblem, EntryProblem } from './problem.ts'
import type { Reason } from './verdict.ts'

/** The sentence of a reason. */
export function sayReason({ id, with: parameters }: Reason): Text {
  return say(id, parameters)
}

/** Where the label says it, in its own words; null when the entry gives neither words nor page. */
export function saySource({ line, page }: Printed): Text | null {
  if (line !== undefined)
    return page === undefined ? say('label.source-line', { line }) : say('label.source', { line, page })
  return page === undefined ? null : say('label.source-page', { page })
}

/** What is wrong with one field of an entry. */
export function sayProblem({ path, id, with: parameters }: EntryProblem): Text {
  const what = say(id, parameters)
  return path === '' ? what : say('label.problem', { field: path, what })
}

/** What is wrong with one field of one row of a file. */
export function sayBookProblem(found: BookProblem): Text {
  if (found.row === 0) return sayProblem(found)
  return say('label.problem-in-row', {
    row: found.row,
    name: found.name ?? say('label.nameless'),
    what: sayProblem(found),
  })
}
