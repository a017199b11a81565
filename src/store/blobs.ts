import { createHash, randomUUID } from 'node:crypto'
import { mkdir, open, readFile, rename, stat } from 'node:fs/promises'
import path from 'node:path'

/** Bytes kept under the hash of their content: the same photo twice is one file, and a changed one is found. */
export interface Blobs {
  /** Returns the SHA-256 of the bytes, in hex. On disk before this resolves. */
  keep(bytes: Uint8Array): Promise<string>
  read(hash: string): Promise<Uint8Array>
  pathOf(hash: string): string
}

export function blobsIn(folder: string): Blobs {
  const pathOf = (hash: string) => path.join(folder, hash.slice(0, 2), hash)
  return {
    pathOf,
    async keep(bytes) {
      const hash = createHash('sha256').update(bytes).digest('hex')
      const target = pathOf(hash)
      if (await exists(target)) return hash
      await mkdir(path.dirname(target), { recursive: true, mode: 0o700 })
      const draft = `${target}.${randomUUID()}`
      const file = await open(draft, 'wx', 0o600)
      try {
        await file.writeFile(bytes)
        await file.sync()
      } finally {
        await file.close()
      }
      await rename(draft, target)
      await syncFolder(path.dirname(target))
      return hash
    },
    async read(hash) {
      if (!/^[0-9a-f]{64}$/.test(hash)) throw new RangeError(`Not the hash of a kept file: ${hash}`)
      return readFile(pathOf(hash))
    },
  }
}

const exists = (file: string) =>
  stat(file).then(
    () => true,
    () => false,
  )

/** The new name itself must be on disk, not only the bytes. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}
