import type { z } from 'zod'
import type { Result } from '#src/quantity/result.ts'
import { fail, ok } from '#src/quantity/result.ts'
import { LabelEntry } from './entry.ts'
import type { EntryProblem } from './problem.ts'
import { pathText, problem } from './problem.ts'

/** Reads the shape of an entry; every field that does not fit is named in plain words. */
export function readShape(json: unknown): Result<LabelEntry, readonly EntryProblem[]> {
  const read = LabelEntry.safeParse(json, { reportInput: true })
  return read.success ? ok(read.data) : fail(read.error.issues.flatMap(explain))
}

type Issue = z.core.$ZodIssue

function explain(issue: Issue): readonly EntryProblem[] {
  const path = pathText(issue.path)
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => problem(pathText([...issue.path, key]), 'field-unknown', { field: key }))
    case 'invalid_type':
      return issue.input === undefined
        ? [problem(path, 'field-missing')]
        : [problem(path, 'field-kind', { expected: issue.expected })]
    case 'invalid_value':
      return issue.input === undefined
        ? [problem(path, 'field-missing')]
        : [problem(path, 'field-choice', { choices: { all: issue.values.map(String), join: 'or' } })]
    case 'too_small':
      return [problem(path, 'field-small', { limit: Number(issue.minimum), counted: issue.origin })]
    case 'too_big':
      return [problem(path, 'field-big', { limit: Number(issue.maximum), counted: issue.origin })]
    default:
      return [problem(path, 'field-form', { typed: shown(issue.input) })]
  }
}

const SHOWN = 40

function shown(input: unknown): string {
  const text = typeof input === 'string' ? input : JSON.stringify(input)
  return (text ?? '').slice(0, SHOWN)
}
