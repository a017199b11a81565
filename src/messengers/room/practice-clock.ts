/** A clock that only moves forward, by itself or by hand. */
export interface PracticeClock {
  nowMs(): number
  forward(ms: number): void
}

/** Stands at `startMs` and moves one second a look, so that what comes later is later; or runs with the real clock. */
export function practiceClock(startMs: number | null, realMs: () => number): PracticeClock {
  let ahead = 0
  let looks = 0
  return {
    nowMs: () => (startMs === null ? realMs() : startMs + looks++ * 1000) + ahead,
    forward: (ms) => {
      ahead += ms
    },
  }
}
