import { randomStream } from '#src/key-trial/random.ts'

/** Choices from a seed, the same on every machine. */
export interface Random {
  /** At least 0, below 1. */
  next(): number
  pick<T>(from: readonly T[]): T
  /** True in this share of cases. */
  chance(share: number): boolean
}

export function randomFrom(seed: number): Random {
  const next = randomStream(seed)
  return {
    next,
    pick(from) {
      const one = from[Math.floor(next() * from.length)]
      if (one === undefined) throw new RangeError('Cannot pick from nothing')
      return one
    },
    chance: (share) => next() < share,
  }
}
