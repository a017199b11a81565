import { createHash } from 'node:crypto'
import { createReadStream, existsSync, readdirSync } from 'node:fs'
import { copyFile, link, mkdir, open, rm } from 'node:fs/promises'
import path from 'node:path'

/** A backup holds what customers and crews have told: nobody else on the machine reads it. */
export const OWN_FOLDER = { recursive: true, mode: 0o700 } as const
export const OWN_FILE = 0o600

const HASH = /^[0-9a-f]{64}$/

/** Hashes of the files kept in a folder; drafts that were never finished do not count. */
export function keptHashes(folder: string): string[] {
  if (!existsSync(folder)) return []
  const found: string[] = []
  for (const shelf of readdirSync(folder, { withFileTypes: true }).filter((one) => one.isDirectory()))
    for (const name of readdirSync(path.join(folder, shelf.name)))
      if (HASH.test(name) && name.startsWith(shelf.name)) found.push(name)
  return found.sort()
}

export const placeOf = (folder: string, hash: string) => path.join(folder, hash.slice(0, 2), hash)

/**
 * Puts a kept file into another folder: a second name for the bytes of an earlier backup where the disk allows, else
 * a copy. False if the file is not what its name says.
 */
export async function carry(
  hash: string,
  { from, before, to }: { readonly from: string; readonly before: string | null; readonly to: string },
): Promise<boolean> {
  const target = placeOf(to, hash)
  if (existsSync(target)) return true
  await mkdir(path.dirname(target), OWN_FOLDER)
  // Linked to an earlier backup only: a file that is changed in place must not change its backup.
  if (before !== null && (await tried(link(placeOf(before, hash), target)))) return true
  await copyFile(placeOf(from, hash), target)
  if ((await sha256OfFile(target)) !== hash) {
    await rm(target)
    return false
  }
  await syncPath(target)
  return true
}

const tried = (work: Promise<void>) =>
  work.then(
    () => true,
    () => false,
  )

export async function sha256OfFile(file: string): Promise<string> {
  const hash = createHash('sha256')
  for await (const piece of createReadStream(file)) hash.update(piece as Buffer)
  return hash.digest('hex')
}

/** A file, or the names in a folder, is on disk when this resolves. */
export async function syncPath(place: string): Promise<void> {
  const handle = await open(place, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
