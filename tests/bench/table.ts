import type { Row } from './figures.ts'

export interface Report {
  readonly rows: readonly Row[]
  readonly memory: Readonly<Record<string, number | null>>
  readonly throughput: readonly Readonly<Record<string, number | string | null>>[]
  readonly growth: readonly Readonly<Record<string, number | string | null>>[]
  readonly start: readonly Readonly<Record<string, number | string | null>>[]
  readonly exports: readonly Readonly<Record<string, number | string | null>>[]
}

/** The report as a person reads it. */
export function tableOf({ rows, memory, throughput, growth, start, exports }: Report): string {
  const measured = [
    ['', 'median ms', 'p99 ms', 'x median', 'x p99', 'against'],
    ...rows.map((row) => [
      row.name,
      figure(row.median_ms),
      figure(row.p99_ms),
      row.ratio_median?.toFixed(2) ?? '',
      row.ratio_p99?.toFixed(2) ?? '',
      row.against ?? '',
    ]),
  ]
  const kept = Object.entries(memory).map(([name, value]) => [name, String(value ?? 'not measured')])
  return `${[measured, kept, ...[throughput, growth, start, exports].map(listed)]
    .filter((part) => part.length > 0)
    .map(columns)
    .join('\n\n')}\n`
}

/** Rows that all have the same names, under these. */
function listed(rows: readonly Readonly<Record<string, number | string | null>>[]): string[][] {
  const [first] = rows
  if (first === undefined) return []
  return [Object.keys(first), ...rows.map((row) => Object.values(row).map((value) => String(value ?? '')))]
}

const figure = (ms: number) => (ms < 1 ? ms.toFixed(4) : ms.toFixed(2))

function columns(lines: readonly (readonly string[])[]): string {
  const widths = (lines[0] ?? []).map((_, at) => Math.max(...lines.map((line) => (line[at] ?? '').length)))
  return lines
    .map((line) =>
      line
        .map((cell, at) => (at === 0 ? cell.padEnd(widths[at] ?? 0) : cell.padStart(widths[at] ?? 0)))
        .join('  '),
    )
    .join('\n')
}
