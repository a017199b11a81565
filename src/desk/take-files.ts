import { type Ask, FileHandle, type StoredFile } from '#src/conversation/ask.ts'
import { say, type Text } from '#src/conversation/text.ts'
import type { Blobs } from '#src/store/blobs.ts'

/** The same request with its files kept by hash, or what is wrong with them. */
export interface Taken {
  readonly ask: Ask
  readonly problems: readonly Text[]
  /** What stands in the files that are plain text, by hash. */
  readonly texts: ReadonlyMap<string, string>
}
export type TakeFiles = (ask: Ask) => Promise<Taken>

/** Fetches what a messenger's handle points to, giving up past `mostBytes`. */
export type FetchFile = (handle: FileHandle, mostBytes: number) => Promise<Uint8Array>

export const MOST_FILE_BYTES = 10 * 1024 * 1024
const TYPES = new Set([
  'image/jpeg',
  'image/png',
  'image/webp',
  'image/gif',
  'image/heic',
  'image/heif',
  'application/pdf',
])
const TEXT_TYPES = new Set(['application/json', 'text/plain', 'text/csv'])

/** Keeps every file of a request before its transaction begins; the type comes from the content, not the name. */
export function takeFilesInto(blobs: Blobs, fetchFile: FetchFile): TakeFiles {
  return async (ask) => {
    const problems: Text[] = []
    const texts = new Map<string, string>()
    const take = async (handle: FileHandle): Promise<StoredFile | null> => {
      const taken = await keepFile(blobs, fetchFile, handle)
      if (taken.ok) {
        if (taken.text !== null) texts.set(taken.file.blob, taken.text)
        return taken.file
      }
      problems.push(taken.problem)
      return null
    }
    if (ask.kind === 'press') return { ask, problems, texts }
    const given = ask.kind === 'run' ? ask.options : ask.fields
    const kept: Record<string, unknown> = {}
    for (const [name, value] of Object.entries(given)) {
      if (isHandle(value)) kept[name] = await take(value)
      else if (Array.isArray(value) && value.some(isHandle))
        kept[name] = (await Promise.all(value.filter(isHandle).map(take))).filter((file) => file !== null)
      else kept[name] = value
    }
    const replaced = ask.kind === 'run' ? { ...ask, options: kept } : { ...ask, fields: kept }
    return { ask: replaced as Ask, problems, texts }
  }
}

/** The same request with its files left out, and what they were called. */
export function withoutFiles(ask: Ask): { readonly ask: Ask; readonly names: string[] } {
  if (ask.kind === 'press') return { ask, names: [] }
  const names: string[] = []
  const left: Record<string, unknown> = {}
  for (const [name, value] of Object.entries(ask.kind === 'run' ? ask.options : ask.fields)) {
    const files = [value].flat().filter(isHandle)
    if (files.length === 0) left[name] = value
    else names.push(...files.map((file) => file.name))
  }
  return { ask: { ...ask, ...(ask.kind === 'run' ? { options: left } : { fields: left }) } as Ask, names }
}

/** For requests that cannot carry files. */
export const noFiles: TakeFiles = async (ask) => ({ ask, problems: [], texts: new Map() })

type Kept =
  | { readonly ok: true; readonly file: StoredFile; readonly text: string | null }
  | { readonly ok: false; readonly problem: Text }

async function keepFile(blobs: Blobs, fetchFile: FetchFile, handle: FileHandle): Promise<Kept> {
  const bad = (id: string): Kept => ({
    ok: false,
    problem: say(id, {
      file: handle.name,
      limit: say('desk.file-limit', { megabytes: MOST_FILE_BYTES / 1024 / 1024 }),
    }),
  })
  if (handle.bytes > MOST_FILE_BYTES) return bad('desk.file-too-big')
  let bytes: Uint8Array
  try {
    bytes = await fetchFile(handle, MOST_FILE_BYTES)
  } catch {
    return bad('desk.file-failed')
  }
  if (bytes.byteLength > MOST_FILE_BYTES) return bad('desk.file-too-big')
  if (bytes.byteLength === 0) return bad('desk.file-failed')
  const type = await typeOf(bytes, handle)
  if (type === null) return bad('desk.file-kind')
  const blob = await blobs.keep(bytes)
  const text = TEXT_TYPES.has(type) ? new TextDecoder().decode(bytes) : null
  return { ok: true, text, file: { blob, name: safeName(handle.name), type, bytes: bytes.byteLength } }
}

async function typeOf(bytes: Uint8Array, handle: FileHandle): Promise<string | null> {
  const { fileTypeFromBuffer } = await import('file-type')
  const sniffed = await fileTypeFromBuffer(bytes)
  if (sniffed !== undefined) return TYPES.has(sniffed.mime) ? sniffed.mime : null
  const claimed = handle.type.split(';')[0] ?? ''
  return TEXT_TYPES.has(claimed) && !bytes.includes(0) ? claimed : null
}

/** A name without folders or control characters, short enough for any file system. */
function safeName(name: string): string {
  const last = name.split(/[/\\]/).at(-1) ?? ''
  const plain = last.replace(/[^\p{L}\p{N}._ -]/gu, '_').slice(-100)
  return /^[._ ]*$/.test(plain) ? 'file' : plain
}

function isHandle(value: unknown): value is FileHandle {
  return FileHandle.safeParse(value).success
}
