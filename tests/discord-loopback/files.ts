import type { APIAttachment } from 'discord-api-types/v10'
import type { Clock } from './clock.ts'
import type { Snowflakes } from './snowflake.ts'

/** Life of a signed link, ms (common practice of the platform, from memory). */
export const LINK_LIFE_MS = 24 * 60 * 60 * 1000

/** A file that a person attaches: to an option or to a form. */
export interface FileSeed {
  name: string
  bytes: Uint8Array | string
  /** @default 'application/octet-stream' */
  contentType?: string
}

export interface StoredFile {
  attachment: APIAttachment
  bytes: Uint8Array
  contentType: string
}

const EXTENSION_TYPES: Record<string, string> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  webp: 'image/webp',
  gif: 'image/gif',
  pdf: 'application/pdf',
  csv: 'text/csv; charset=utf-8',
  txt: 'text/plain; charset=utf-8',
}

const typeByName = (name: string) =>
  EXTENSION_TYPES[name.split('.').at(-1)?.toLowerCase() ?? ''] ?? 'application/octet-stream'

/** File names keep letters, digits, dot, dash and underscore, as on the platform (from memory). */
const safeName = (name: string) => name.replace(/[^\p{L}\p{N}._-]/gu, '_') || 'file'

/** Keeps uploads and serves them under signed links that expire. */
export class Files {
  readonly stored = new Map<string, StoredFile>()
  readonly #clock: Clock
  readonly #ids: Snowflakes
  /** Origin of the links; known once the server listens. */
  origin = ''

  constructor(clock: Clock, ids: Snowflakes) {
    this.#clock = clock
    this.#ids = ids
  }

  put(file: FileSeed, channelId: string, extra: Partial<APIAttachment> = {}): APIAttachment {
    const id = this.#ids.next()
    const bytes = typeof file.bytes === 'string' ? Buffer.from(file.bytes, 'utf8') : file.bytes
    const name = safeName(file.name)
    const expires = Math.floor((this.#clock.nowMs() + LINK_LIFE_MS) / 1000).toString(16)
    const path = `/attachments/${channelId}/${id}/${encodeURIComponent(name)}`
    const url = `${this.origin}${path}?ex=${expires}&is=0&hm=${'0'.repeat(64)}&`
    const contentType = file.contentType ?? typeByName(name)
    const attachment: APIAttachment = {
      id,
      filename: name,
      size: bytes.length,
      url,
      proxy_url: url,
      content_type: contentType,
      ...extra,
    }
    this.stored.set(decodeURIComponent(path), { attachment, bytes, contentType })
    return attachment
  }

  /** The file behind a link, unless it is unknown, unsigned or expired. */
  open(path: string, query: URLSearchParams): StoredFile | undefined {
    const expiresAtMs = Number.parseInt(query.get('ex') ?? '0', 16) * 1000
    return this.#clock.nowMs() > expiresAtMs ? undefined : this.stored.get(path)
  }
}
