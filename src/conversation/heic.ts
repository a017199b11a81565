import type { Answer } from '#src/desk/command.ts'
import type { StoredFile } from './ask.ts'
import { say } from './text.ts'

/** As newer phones save photos. */
const HEIC = ['image/heic', 'image/heif']

export const isHeic = (type: string): boolean => HEIC.includes(type)

/**
 * The same answer, with what has to be known of HEIC photos: their bytes are kept as they came, and only some programs
 * show them. No decoder is taken in: the library that pictures are made with ships without one, since the format rests
 * on a patented video codec, and the one that npm has besides is under other terms than this program.
 */
export function withHeicNote(answer: Answer, files: readonly StoredFile[]): Answer {
  if (!files.some(({ type }) => isHeic(type))) return answer
  const { reply } = answer
  return { ...answer, reply: { ...reply, lines: [...reply.lines, say('log-photos.heic')] } }
}
