import { lstat, mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'

const PREFIX = 'swardhand-paper-'
/** As the folders are called that are made here: six letters or digits behind the prefix. */
const OWN_NAME = new RegExp(`^${PREFIX}[A-Za-z0-9]{6}$`)
/** No paper takes as long as this to be written and to leave. */
const OLD_MS = 24 * 60 * 60 * 1000

/**
 * A folder of its own for the files of one paper. Whoever takes it removes it; those that a killed process left behind
 * go when the next paper is written.
 * @param options.within where such folders are made. @default the system's place for such files
 */
export async function paperFolder({
  within = tmpdir(),
  nowMs = Date.now(),
}: {
  readonly within?: string
  readonly nowMs?: number
} = {}): Promise<string> {
  await sweep(within, nowMs)
  return mkdtemp(path.join(within, PREFIX))
}

/** Old folders of this kind, of this user alone; customers' records stay nowhere longer than they have to. */
async function sweep(within: string, nowMs: number): Promise<void> {
  const names = await readdir(within).catch(() => [])
  for (const name of names.filter((one) => OWN_NAME.test(one))) {
    const folder = path.join(within, name)
    // Another process may take it away meanwhile, and a paper is written whether or not there is room to tidy up.
    if (await isLeft(folder, nowMs).catch(() => false))
      await rm(folder, { recursive: true, force: true }).catch(() => {})
  }
}

async function isLeft(folder: string, nowMs: number): Promise<boolean> {
  const found = await lstat(folder)
  if (!found.isDirectory() || found.uid !== (process.getuid?.() ?? found.uid)) return false
  const files = await readdir(folder)
  const times = await Promise.all(files.map(async (name) => (await lstat(path.join(folder, name))).mtimeMs))
  return Math.max(found.mtimeMs, ...times) < nowMs - OLD_MS
}
