import { createHash } from 'node:crypto'

/** The same items in an order that only the seed decides. */
export function shuffled(items: readonly string[], seed: string): string[] {
  const rank = (item: string) => createHash('sha256').update(`${seed}\n${item}`).digest('hex')
  return [...items].sort((a, b) => (rank(a) < rank(b) ? -1 : 1))
}
