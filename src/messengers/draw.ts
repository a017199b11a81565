import type { Attachment } from '#src/conversation/reply.ts'
import type { Blobs } from '#src/store/blobs.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speak } from '#src/words/speak.ts'

/** A file as it leaves: drawn after the commit, or read from what is kept. */
export interface Drawn {
  readonly name: string
  readonly type: string
  readonly bytes: Uint8Array
}

/** Turns a named picture, paper or kept file into bytes. */
export function drawer(parts: { readonly words: Catalogue; readonly blobs: Blobs }) {
  return async (file: Attachment, locale: string, zone: string): Promise<Drawn> => {
    const { from } = file
    if ('blob' in from)
      return { name: file.name, type: typeOf(file.name), bytes: await parts.blobs.read(from.blob) }
    if ('picture' in from) {
      const inWords = (text: Parameters<typeof speak>[1]) =>
        speak(parts.words, text, { locale, escape: (typed) => typed, zone })
      // Loaded when first needed: most answers have no picture.
      const { drawPicture } = await import('#src/pictures/draw-picture.ts')
      const { type, bytes } = await drawPicture(from.picture, from.data, { say: inWords, theme: 'light' })
      return { name: file.name, type, bytes }
    }
    throw new Error(`Cannot draw a paper called ${from.paper}`)
  }
}

const TYPES: Readonly<Record<string, string>> = {
  png: 'image/png',
  jpg: 'image/jpeg',
  jpeg: 'image/jpeg',
  webp: 'image/webp',
  gif: 'image/gif',
  pdf: 'application/pdf',
  json: 'application/json',
}

function typeOf(name: string): string {
  return TYPES[name.split('.').at(-1)?.toLowerCase() ?? ''] ?? 'application/octet-stream'
}
