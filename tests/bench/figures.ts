/** One measured thing, and how it stands against another that was measured in the same run. */
export interface Row {
  readonly name: string
  readonly median_ms: number
  readonly p99_ms: number
  readonly ratio_median: number | null
  readonly ratio_p99: number | null
  /** Name of the row it is held against; null for one that is only there to be held against. */
  readonly against: string | null
}

/** Enough digits for what takes a microsecond. */
const DIGITS = 6

export const rounded = (value: number, digits = DIGITS): number => Number(value.toFixed(digits))

/** The value below which this share of the others lie (nearest rank). */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((one, other) => one - other)
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN
}

export const median = (values: readonly number[]): number => percentile(values, 0.5)

/** Times by name, in ms, as rows; `against` names for each the one it is held against. */
export function rowsOf(
  times: ReadonlyMap<string, readonly number[]>,
  against: Readonly<Record<string, string>>,
): Row[] {
  return [...times].map(([name, values]) => {
    const other = against[name]
    const base = other === undefined ? undefined : times.get(other)
    return {
      name,
      median_ms: rounded(median(values)),
      p99_ms: rounded(percentile(values, 0.99)),
      ratio_median: base === undefined ? null : rounded(median(values) / median(base), 2),
      ratio_p99: base === undefined ? null : rounded(percentile(values, 0.99) / percentile(base, 0.99), 2),
      against: other ?? null,
    }
  })
}
