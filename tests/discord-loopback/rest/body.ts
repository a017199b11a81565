import type { IncomingMessage } from 'node:http'
import { isObject } from '../rules/check.ts'

/** Whole request, all files together. Source: Discord developer docs, reference, "Uploading Files". */
export const REQUEST_BYTES = 25 * 1024 * 1024

export interface UploadedFile {
  /** The n of `files[n]`. */
  index: number
  name: string
  contentType: string
  bytes: Uint8Array
}

export type ParsedBody =
  | { ok: true; json: unknown; files: UploadedFile[] }
  | { ok: false; problem: 'invalid-json' | 'too-large' }

/** Everything the request carries. Reads to the end even if it is too much, so that an answer can be sent. */
export async function readBytes(request: IncomingMessage): Promise<Buffer> {
  const chunks: Buffer[] = []
  for await (const chunk of request) chunks.push(chunk as Buffer)
  return Buffer.concat(chunks)
}

function parseJson(text: string): ParsedBody {
  if (text === '') return { ok: true, json: undefined, files: [] }
  try {
    return { ok: true, json: JSON.parse(text), files: [] }
  } catch {
    return { ok: false, problem: 'invalid-json' }
  }
}

const FILE_FIELD = /^files\[(\d+)\]$/

/** `payload_json` and `files[n]`; other fields count as a plain form, as the platform reads them. */
async function parseMultipart(bytes: Buffer, contentType: string): Promise<ParsedBody> {
  const form = await new Response(new Uint8Array(bytes), {
    headers: { 'content-type': contentType },
  }).formData()
  const files: UploadedFile[] = []
  let payload: ParsedBody = { ok: true, json: {}, files }
  for (const [field, value] of form) {
    const index = FILE_FIELD.exec(field)?.[1]
    if (index !== undefined && typeof value !== 'string')
      files.push({
        index: Number(index),
        name: value.name,
        contentType: value.type || 'application/octet-stream',
        bytes: new Uint8Array(await value.arrayBuffer()),
      })
    else if (field === 'payload_json' && typeof value === 'string') payload = parseJson(value)
  }
  return payload.ok ? { ...payload, files } : payload
}

/** The body as JSON and files. An empty body is `undefined`. */
export async function parseBody(bytes: Buffer, contentType: string | undefined): Promise<ParsedBody> {
  if (bytes.length > REQUEST_BYTES) return { ok: false, problem: 'too-large' }
  if (contentType?.startsWith('multipart/form-data')) {
    try {
      return await parseMultipart(bytes, contentType)
    } catch {
      return { ok: false, problem: 'invalid-json' }
    }
  }
  return parseJson(bytes.toString('utf8'))
}

/** The body as an object; anything else counts as empty, and the rules then find what is missing. */
export const objectBody = (json: unknown) => (isObject(json) ? json : {})
