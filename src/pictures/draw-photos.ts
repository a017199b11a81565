import sharp, { type OverlayOptions } from 'sharp'
import { drawPicture, type PictureOptions } from './draw-picture.ts'
import { PHOTO_SCALE, PHOTO_SHEET, PhotoSheet, photoFrames } from './kinds/photo-sheet.ts'
import { readPhoto } from './photo.ts'
import { themes } from './theme.ts'

/** Reads kept bytes by their hash. */
export type ReadBlob = (blob: string) => Promise<Uint8Array>

/** Photos side by side as one JPEG. @throws ZodError when the data are no sheet of photos */
export async function drawPhotos(
  data: unknown,
  { readBlob, ...options }: PictureOptions & { readonly readBlob: ReadBlob },
): Promise<Uint8Array> {
  const sheet = PhotoSheet.parse(data)
  const { bytes } = await drawPicture(PHOTO_SHEET, sheet, options)
  const { say, theme } = options
  const frames = photoFrames(sheet, {
    say,
    theme: themes[theme],
    words: (one) => (typeof one === 'string' ? one : say(one)),
  })
  const layers: OverlayOptions[] = []
  // One after another: eight photos of a phone at once would take hundreds of megabytes.
  for (const { blob, ...place } of frames) {
    const [left, top, width, height] = [place.x, place.y, place.width, place.height].map((units) =>
      Math.round(units * PHOTO_SCALE),
    ) as [number, number, number, number]
    const photo = await readBlob(blob)
      .catch(() => null)
      .then((kept) => (kept === null ? null : readPhoto(kept, { width, height })))
    if (photo === null) continue
    layers.push({
      input: { create: { width, height, channels: 3, background: themes[theme].paper } },
      left,
      top,
    })
    layers.push({
      input: photo.bytes,
      left: left + Math.floor((width - photo.width) / 2),
      top: top + Math.floor((height - photo.height) / 2),
    })
  }
  return sharp(bytes).composite(layers).flatten().jpeg({ quality: 84 }).toBuffer()
}
