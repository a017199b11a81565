const DAY_MS = 86_400_000

/** `2026-04-01` as the number of its day, or null when there is no such day. */
export function dayNumber(day: string): number | null {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day)
  if (parts === null) return null
  const atMs = Date.UTC(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3]))
  return dayText(atMs / DAY_MS) === day ? atMs / DAY_MS : null
}

/** The plain date of a day's number. */
export function dayText(number: number): string {
  return new Date(number * DAY_MS).toISOString().slice(0, 10)
}
