/** Time as the stand-in sees it, in ms UTC. Deadlines, token life and link expiry are judged by it. */
export interface Clock {
  nowMs(): number
}

/** Runs with the machine's clock, shifted by hand; or stands still while it is held. */
export class MovableClock implements Clock {
  #offsetMs = 0
  #heldAtMs: number | undefined

  nowMs(): number {
    return this.#heldAtMs ?? Date.now() + this.#offsetMs
  }

  /** Moves the time forward (or back, if negative) by `ms`. */
  advance(ms: number): void {
    if (this.#heldAtMs === undefined) this.#offsetMs += ms
    else this.#heldAtMs += ms
  }

  /** Stops the clock: deadlines then pass only by `advance`. */
  hold(): void {
    this.#heldAtMs = this.nowMs()
  }

  /** Lets a held clock run on from where it stands. */
  release(): void {
    if (this.#heldAtMs === undefined) return
    this.#offsetMs = this.#heldAtMs - Date.now()
    this.#heldAtMs = undefined
  }
}
