import { BoundedMap } from './bounded-map.ts'

/** The same answers, each worked out once: the newest `most` texts are known. */
export function remember<Made extends NonNullable<unknown> | null>(
  work: (text: string) => Made,
  most: number,
): (text: string) => Made {
  const known = new BoundedMap<string, Made>(most)
  return (text) => {
    const before = known.get(text)
    if (before !== undefined) return before
    const made = work(text)
    known.set(text, made)
    return made
  }
}
