import { randomUUID } from 'node:crypto'
import type { FileHandle } from '#src/conversation/ask.ts'
import type { FetchFile } from '#src/desk/take-files.ts'

/** Bytes that a page has sent and no answer has taken yet. They live in memory, for a while. */
export interface Uploads {
  /** Null when there is no room: too many wait already. */
  keep(file: { readonly name: string; readonly type: string; readonly bytes: Uint8Array }): string | null
  handleOf(id: string): FileHandle | null
  fetch: FetchFile
}

const SCHEME = 'upload:'
const MOST_WAITING = 12
const MOST_BYTES_WAITING = 48 * 1024 * 1024
const KEPT_MS = 10 * 60_000

interface Waiting {
  readonly handle: FileHandle
  readonly bytes: Uint8Array
  readonly untilMs: number
}

export function openUploads(nowMs: () => number = Date.now): Uploads {
  const waiting = new Map<string, Waiting>()
  const forgetOld = () => {
    for (const [id, { untilMs }] of waiting) if (untilMs <= nowMs()) waiting.delete(id)
  }
  return {
    keep({ name, type, bytes }) {
      forgetOld()
      const held = [...waiting.values()].reduce((sum, one) => sum + one.bytes.byteLength, 0)
      if (waiting.size >= MOST_WAITING || held + bytes.byteLength > MOST_BYTES_WAITING) return null
      const id = randomUUID()
      const handle = { name, type, bytes: bytes.byteLength, url: `${SCHEME}${id}` }
      waiting.set(id, { handle, bytes, untilMs: nowMs() + KEPT_MS })
      return id
    },
    handleOf(id) {
      forgetOld()
      return waiting.get(id)?.handle ?? null
    },
    async fetch({ url }) {
      const id = url.slice(SCHEME.length)
      const found = url.startsWith(SCHEME) ? waiting.get(id) : undefined
      if (found === undefined) throw new Error('Cannot find a file that was sent: it has been forgotten')
      // Not forgotten at once: a request that is sent again must find it again.
      return found.bytes
    },
  }
}

/** True for what only `Uploads` can fetch. */
export const isUpload = ({ url }: FileHandle): boolean => url.startsWith(SCHEME)
