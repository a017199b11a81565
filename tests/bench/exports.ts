import { execFile } from 'node:child_process'
import { promisify } from 'node:util'
import { bundleForNow } from '#src/bundle.mjs'
import { projectRoot } from '#src/project.ts'
import { FLAGS } from './bots.ts'
import { rounded } from './figures.ts'
import { fill } from './growth.ts'
import { openPractice } from './practice.ts'
import { tellApart } from './tell-apart.ts'

/** A paper of all records, against reading the same rows with the bare driver and writing them with the CSV writer. */
export type Exported = {
  readonly records: number
  readonly work: string
  readonly seconds: number
  readonly records_per_second: number
  /** Of the bare driver's records a second; null for the bare driver itself. */
  readonly speed_ratio: number | null
  readonly megabytes: number
  /** The most that resident memory grew over what it was when the store was open. */
  readonly rss_growth_mb: number
}

const WORKS = { bare: 'bare driver and CSV writer', csv: 'CSV', json: 'JSON', pdf: 'PDF' } as const
export type Format = Exclude<keyof typeof WORKS, 'bare'>

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
    for (const work of ['bare', ...formats] as const) {
      const ran = await promisify(execFile)(process.execPath, [...FLAGS, bundled.file, practice.file, work], {
        cwd: projectRoot(),
        env: { PATH: process.env.PATH },
      })
      const { ms, bytes, rss_growth } = JSON.parse(ran.stdout) as Record<
        'ms' | 'bytes' | 'rss_growth',
        number
      >
      const records_per_second = rounded((records * 1000) / ms, 0)
      exported.push({
        records,
        work: WORKS[work],
        seconds: rounded(ms / 1000, 1),
        records_per_second,
        speed_ratio:
          work === 'bare' ? null : rounded(records_per_second / (exported[0]?.records_per_second ?? 0), 2),
        megabytes: rounded(bytes / 1_000_000, 1),
        rss_growth_mb: rounded(rss_growth / 1_048_576, 1),
      })
    }
    return exported
  } finally {
    bundled.remove()
    await practice.close()
  }
}
