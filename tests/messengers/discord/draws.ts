import type { Attachment } from '#src/conversation/reply.ts'
import { type Draw, inMemory } from '#src/messengers/draw.ts'

/** Draws one small file for each attachment, once `bytesOf` has them. */
export function drawsOne(
  bytesOf: (file: Attachment) => Promise<Uint8Array>,
  typeOf: (name: string) => string = () => 'image/png',
): Draw {
  return async function* draw(file) {
    yield inMemory(file.name, typeOf(file.name), await bytesOf(file))
  }
}

/** Fails for whatever it is asked. */
export function drawsNothing(why: string): Draw {
  return drawsOne(() => Promise.reject(new Error(why)))
}
