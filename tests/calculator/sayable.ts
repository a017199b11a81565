import { expect } from 'vitest'
import type { Calculated } from '#src/calculator/worked.ts'
import type { Text } from '#src/conversation/text.ts'
import { readData } from '#src/project.ts'
import { buildCatalogue } from '#src/words/catalogue.ts'
import { speak } from '#src/words/speak.ts'

const rooms = ['calibrate', 'area', 'order', 'spot', 'weather', 'words'] as const

/** English words of these rooms alone. */
export const words = buildCatalogue(
  rooms.map((room) => ({
    locale: 'en',
    name: `${room}.json`,
    content: JSON.parse(readData(`words/en/${room}.json`)),
  })),
)

interface Sentence {
  readonly id: string
  readonly with: NonNullable<Text['with']>
}

/** The sentence as a crew reads it; fails when a word or a figure is missing. */
export function spoken({ id, with: figures }: Sentence): string {
  const missing: unknown[] = []
  const text = { say: id, with: figures }
  const said = speak(words, text, {
    locale: 'en',
    escape: (typed) => typed,
    onMissing: (one) => missing.push(one),
  })
  expect(missing, `${id} cannot be said`).toEqual([])
  return said
}

/** Says every sentence of a result, so that none of them lacks a word, and gives them back. */
export function spokenAll(result: {
  readonly working?: readonly Sentence[]
  readonly findings?: readonly Sentence[]
  readonly problems?: readonly Sentence[]
  readonly reasons?: readonly Sentence[]
}): string[] {
  const { working = [], findings = [], problems = [], reasons = [] } = result
  return [...working, ...findings, ...problems, ...reasons].map(spoken)
}

/** The value of a result that must have come out. */
export function resultOf<T>(result: Calculated<T>): T {
  if (!result.ok) throw new Error(`No result: ${JSON.stringify(result)}`)
  spokenAll(result)
  return result.value
}

/** Ids of what stands in the way, or of what goes with the result. */
export function idsOf(result: {
  readonly findings?: readonly Sentence[]
  readonly problems?: readonly Sentence[]
}): string[] {
  spokenAll(result)
  return [...(result.problems ?? []), ...(result.findings ?? [])].map((one) => one.id)
}
