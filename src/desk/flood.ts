/** Requests that one person may make at once, and how fast the allowance comes back. */
const BURST = 30
const PER_SECOND = 2

interface Allowance {
  left: number
  atMs: number
}

/** Slows one person's flood and leaves everybody else alone. Lives in memory: a restart forgives. */
export function floodGate(): (person: string, nowMs: number) => boolean {
  const allowances = new Map<string, Allowance>()
  return (person, nowMs) => {
    const known = allowances.get(person) ?? { left: BURST, atMs: nowMs }
    const back = (Math.max(0, nowMs - known.atMs) / 1000) * PER_SECOND
    const left = Math.min(BURST, known.left + back)
    if (allowances.size > 10_000) allowances.clear()
    allowances.set(person, { left: Math.max(0, left - 1), atMs: nowMs })
    return left >= 1
  }
}
