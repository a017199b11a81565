/** A clock that only moves forward, by itself or by hand. */
export interface PracticeClock {
  nowMs(): number
  forward(ms: number): void
}

export interface WallClock extends PracticeClock {
  /** The time without a look at the clock: a standing clock stays where it is. */
  peekMs(): number
}

/** Stands at `startMs` and moves one second a look, so that what comes later is later; or runs with the real clock. */
export function practiceClock(startMs: number | null, realMs: () => number): WallClock {
  let ahead = 0
  let looks = 0
  const peekMs = () => (startMs === null ? realMs() : startMs + looks * 1000) + ahead
  return {
    peekMs,
    nowMs: () => {
      const nowMs = peekMs()
      looks += 1
      return nowMs
    },
    forward: (ms) => {
      ahead += ms
    },
  }
}
