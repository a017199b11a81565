import sharp from 'sharp'

/** Phones save 12 to 50 million; unpacking more than this could take more memory than the program has. */
const MOST_PIXELS = 64_000_000

/** A photo as it is shown: upright, small enough, as JPEG. */
export interface Photo {
  readonly bytes: Buffer
  readonly width: number
  readonly height: number
}

/** Makes a photo fit into a box of pixels; null for what is damaged, too large, or of a kind that cannot be read. */
export async function readPhoto(
  bytes: Uint8Array,
  box: { readonly width: number; readonly height: number },
): Promise<Photo | null> {
  try {
    const { data, info } = await sharp(bytes, { limitInputPixels: MOST_PIXELS })
      .rotate()
      .resize({ ...box, fit: 'inside', withoutEnlargement: true })
      .flatten({ background: '#ffffff' })
      .jpeg({ quality: 84 })
      .toBuffer({ resolveWithObject: true })
    return { bytes: data, width: info.width, height: info.height }
  } catch {
    // Somebody else's file: whatever is wrong with it, the rest of the picture is shown.
    return null
  }
}
