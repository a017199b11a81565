import type { Ask } from '#src/conversation/ask.ts'

/** Everything that somebody typed in this request. */
export function freeTextsOf(ask: Ask): string[] {
  if (ask.kind === 'run') return [ask.command, ...Object.values(ask.options)].filter(isText)
  if (ask.kind === 'submit') return Object.values(ask.fields).flat().filter(isText)
  return []
}

const isText = (value: unknown): value is string => typeof value === 'string'
