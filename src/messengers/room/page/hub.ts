/** Wakes whoever waits, such as every open window when something may have changed; what it is, each looks up itself. */
export interface Hub {
  poke(): void
  /** Resolves at the next poke, or after this time. */
  next(ms: number): Promise<void>
}

export function openHub(): Hub {
  const waiting = new Set<() => void>()
  return {
    poke() {
      for (const wake of [...waiting]) wake()
    },
    next: (ms) =>
      new Promise((done) => {
        const wake = () => {
          clearTimeout(timer)
          waiting.delete(wake)
          done()
        }
        const timer = setTimeout(wake, ms)
        waiting.add(wake)
      }),
  }
}
