import type { Character } from './schema.ts'

/**
 * How often a crew member gives a wrong state of a character, by how firm it is on the plant and how hard it is to see.
 * The order follows the grades in the data; the figures are judgement: published tests of keys report whole
 * identifications right or wrong, not single characters.
 */
const BY_RELIABILITY = { 'very-good': 0.06, good: 0.09, fair: 0.12, weak: 0.2 } as const
const BY_EASE = { easy: 0, medium: 0.01, hard: 0.04 } as const

export function errorRate(character: Pick<Character, 'ease' | 'reliability'>): number {
  return BY_RELIABILITY[character.reliability] + BY_EASE[character.ease]
}
