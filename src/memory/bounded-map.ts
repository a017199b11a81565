/** A map that forgets its oldest entries: what lives in memory may not grow with the number of people. */
export class BoundedMap<Key, Value> {
  readonly #entries = new Map<Key, Value>()
  readonly #most: number

  constructor(most: number) {
    this.#most = most
  }

  get(key: Key): Value | undefined {
    return this.#entries.get(key)
  }

  has(key: Key): boolean {
    return this.#entries.has(key)
  }

  set(key: Key, value: Value): void {
    this.#entries.delete(key)
    this.#entries.set(key, value)
    if (this.#entries.size <= this.#most) return
    for (const oldest of this.#entries.keys()) {
      this.#entries.delete(oldest)
      return
    }
  }

  delete(key: Key): void {
    this.#entries.delete(key)
  }
}
