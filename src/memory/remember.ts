import { BoundedMap } from './bounded-map.ts'

/** The same answers, each worked out once: the newest `most` texts are known. */
export function remember<Made extends NonNullable<unknown> | null>(
  work: (text: string) => Made,
  most: number,
): (text: string) => Made {
  return rememberBy((text) => text, work, most)
}

/**
 * The same for plain data: what is equal as JSON has one answer, which all who ask share and nobody changes. For works
 * that depend on nothing else.
 */
export function rememberEqual<Given, Made extends NonNullable<unknown> | null>(
  work: (given: Given) => Made,
  most: number,
): (given: Given) => Made {
  return rememberBy((given) => JSON.stringify(given), work, most)
}

function rememberBy<Given, Made extends NonNullable<unknown> | null>(
  keyOf: (given: Given) => string,
  work: (given: Given) => Made,
  most: number,
): (given: Given) => Made {
  const known = new BoundedMap<string, Made>(most)
  return (given) => {
    const key = keyOf(given)
    const before = known.get(key)
    if (before !== undefined) return before
    const made = work(given)
    known.set(key, made)
    return made
  }
}
