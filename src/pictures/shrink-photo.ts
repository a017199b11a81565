import { readPhoto } from './photo.ts'

/** Longest edges in pixels that are tried, one after another. */
const EDGES = [3200, 2400, 1600, 1200, 800, 400] as const

/**
 * The largest copy of a photo that is no more than `mostBytes`, as JPEG. What the camera wrote beside it is left out.
 * @returns null for what cannot be read, such as HEIC, and where even the smallest copy is too large
 */
export async function shrinkPhoto(bytes: Uint8Array, mostBytes: number): Promise<Buffer | null> {
  for (const edge of EDGES) {
    const copy = await readPhoto(bytes, { width: edge, height: edge })
    if (copy === null) return null
    if (copy.bytes.byteLength <= mostBytes) return copy.bytes
  }
  return null
}
