import type { Attachment } from '#src/conversation/reply.ts'
import type { Blobs } from '#src/store/blobs.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speak } from '#src/words/speak.ts'

/** What a browser may show by itself; everything else it only downloads. */
export const SHOWN_TYPES: ReadonlySet<string> = new Set([
  'image/png',
  'image/jpeg',
  'image/webp',
  'image/gif',
])

/**
 * Width and height that a picture will have once it is drawn, so that the page keeps room for it; null for what is no
 * picture. A picture of our own is only laid out for this, not drawn.
 */
export async function pictureSize(
  file: Attachment,
  parts: {
    readonly words: Catalogue
    readonly blobs: Blobs
    readonly locale: string
    readonly zone: string
  },
): Promise<readonly [number, number] | null> {
  const { from } = file
  if ('paper' in from) return null
  if ('picture' in from) {
    const { pictureSvg } = await import('#src/pictures/draw-picture.ts')
    const { svg, widthPx } = pictureSvg(from.picture, from.data, {
      say: (text) => speak(parts.words, text, { ...parts, escape: (typed) => typed }),
      theme: 'light',
    })
    const [, , , width, height] = /viewBox="(\S+) (\S+) (\S+) (\S+)"/.exec(svg) ?? []
    return width === undefined || height === undefined
      ? null
      : [widthPx, Math.round((widthPx * Number(height)) / Number(width))]
  }
  const bytes = await parts.blobs.read(from.blob)
  const { fileTypeFromBuffer } = await import('file-type')
  const type = await fileTypeFromBuffer(bytes)
  if (type === undefined || !SHOWN_TYPES.has(type.mime)) return null
  const { default: sharp } = await import('sharp')
  const { autoOrient } = await sharp(bytes).metadata()
  return [autoOrient.width, autoOrient.height]
}
