import { execFile } from 'node:child_process'
import { promisify } from 'node:util'
import { bundleForNow } from '#src/bundle.mjs'
import { projectRoot } from '#src/project.ts'
import { FLAGS } from './bots.ts'
import { rounded } from './figures.ts'
import { fill } from './growth.ts'
import { openPractice } from './practice.ts'
import { tellApart } from './tell-apart.ts'

/** A paper of all records, against reading the same rows with the bare driver and writing them without more ado. */
export type Exported = {
  readonly records: number
  readonly work: string
  readonly seconds: number
  /** Of the processor, which whoever else uses the machine changes less. */
  readonly cpu_seconds: number
  readonly records_per_second: number
  /** Of the records a second of the bare driver and CSV writer; null for that itself. */
  readonly speed_ratio: number | null
  /** Of those of the bare driver that writes the same format; null where there is none. */
  readonly same_format_ratio: number | null
  readonly megabytes: number
  /** The most that resident memory grew over what it was when the store was open. */
  readonly rss_growth_mb: number
}

const WORKS = {
  'bare-csv': 'bare driver and CSV writer',
  'bare-json': 'bare driver and JSON writer',
  csv: 'CSV',
  json: 'JSON',
  pdf: 'PDF',
} as const
type Work = keyof typeof WORKS
export type Format = Exclude<Work, `bare-${string}`>

/** The bare driver that each format is held against beside the CSV. */
const SAME_FORMAT: Partial<Readonly<Record<Work, Work>>> = { csv: 'bare-csv', json: 'bare-json' }

/** Each in a process of its own, one after another, on a store with so many made-up records. */
export async function measureExports(
  records: number,
  formats: readonly Format[],
): Promise<readonly Exported[]> {
  const practice = await openPractice()
  const bundled = await bundleForNow(projectRoot(), 'tests/bench/export-work.ts')
  try {
    await (await practice.readyLog()).keep()
    await fill(practice, records)
    await tellApart(practice)
    const exported: Exported[] = []
    const speeds = new Map<Work, number>()
    const bare = formats.includes('json') ? (['bare-csv', 'bare-json'] as const) : (['bare-csv'] as const)
    for (const work of [...bare, ...formats]) {
      const ran = await promisify(execFile)(process.execPath, [...FLAGS, bundled.file, practice.file, work], {
        cwd: projectRoot(),
        env: { PATH: process.env.PATH },
      })
      const { ms, cpu_ms, bytes, rss_growth } = JSON.parse(ran.stdout) as Record<
        'ms' | 'cpu_ms' | 'bytes' | 'rss_growth',
        number
      >
      const records_per_second = rounded((records * 1000) / ms, 0)
      exported.push({
        records,
        work: WORKS[work],
        seconds: rounded(ms / 1000, 1),
        cpu_seconds: rounded(cpu_ms / 1000, 1),
        records_per_second,
        speed_ratio: work === 'bare-csv' ? null : ratio(records_per_second, speeds.get('bare-csv')),
        same_format_ratio: ratio(records_per_second, speeds.get(SAME_FORMAT[work] ?? work)),
        megabytes: rounded(bytes / 1_000_000, 1),
        rss_growth_mb: rounded(rss_growth / 1_048_576, 1),
      })
      speeds.set(work, records_per_second)
    }
    return exported
  } finally {
    bundled.remove()
    await practice.close()
  }
}

const ratio = (speed: number, against: number | undefined) =>
  against === undefined ? null : rounded(speed / against, 2)
