/** Requests in a row share one commit, up to so many and so long: nobody waits much longer for company than for the disk. */
const MOST_TOGETHER = 32
const LONGEST_TOGETHER_MS = 25

/** One commit for the work of several requests that stand in line: none is told anything before it is on disk. */
export class Group {
  /** Settles with the commit. */
  readonly done: Promise<void>
  #resolve = () => {}
  #reject = (_error: unknown) => {}
  #members = 1
  readonly #sinceMs = performance.now()

  constructor() {
    this.done = new Promise((resolve, reject) => {
      this.#resolve = resolve
      this.#reject = reject
    })
    // Whoever belongs to it hears of it; a group whose members have all failed before has nobody to tell.
    this.done.catch(() => {})
  }

  join(): void {
    this.#members += 1
  }

  get isFull(): boolean {
    return this.#members >= MOST_TOGETHER || performance.now() - this.#sinceMs >= LONGEST_TOGETHER_MS
  }

  keep(): void {
    this.#resolve()
  }

  lose(error: unknown): void {
    this.#reject(error)
  }
}
