/**
 * Preloaded in every test process: properties draw the same values each time, so that a red run can be run again and
 * a green one does not depend on luck. `PROPERTY_SEED=random` (or a number) looks further.
 */
import fc from 'fast-check'

const SEED = 20_260_701

function seedFrom(asked: string | undefined): number {
  if (asked === undefined || asked === '') return SEED
  if (asked === 'random') return Date.now() % 2 ** 31
  const seed = Number(asked)
  if (!Number.isInteger(seed)) throw new Error(`PROPERTY_SEED is a whole number or "random", not "${asked}"`)
  return seed
}

fc.configureGlobal({ seed: seedFrom(process.env.PROPERTY_SEED) })
