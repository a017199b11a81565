/** A list that grows, on which one can wait for an item. */
export class Waiting<T> {
  readonly all: T[] = []
  readonly #waiters = new Set<(item: T) => void>()

  push(item: T): void {
    this.all.push(item)
    for (const waiter of [...this.#waiters]) waiter(item)
  }

  /** The next item from now on that matches; rejects after `timeoutMs` of real time with `explain()`. */
  next(matches: (item: T) => boolean, timeoutMs: number, explain: () => string): Promise<T> {
    return new Promise((resolve, reject) => {
      const finish = (settle: () => void) => {
        clearTimeout(timer)
        this.#waiters.delete(waiter)
        settle()
      }
      const waiter = (item: T) => {
        if (matches(item)) finish(() => resolve(item))
      }
      const timer = setTimeout(() => finish(() => reject(new Error(explain()))), timeoutMs)
      this.#waiters.add(waiter)
    })
  }

  /** The first item that matches, already there or still to come. */
  async first(matches: (item: T) => boolean, timeoutMs: number, explain: () => string): Promise<T> {
    return this.all.find(matches) ?? (await this.next(matches, timeoutMs, explain))
  }
}

/** Real time that a test waits for the bot before it gives up, ms. */
export const PATIENCE_MS = 5000
