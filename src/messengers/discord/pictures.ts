import type { Attachment } from '#src/conversation/reply.ts'
import type { Answered } from '#src/desk/desk.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speak } from '#src/words/speak.ts'
import { cutText } from './cut.ts'
import { oneLine } from './escape.ts'
import { MESSAGE } from './limits.ts'
import type { Log } from './log.ts'

/** A drawn picture or paper, ready to send. */
export interface ReadyFile {
  readonly name: string
  readonly type: string
  readonly bytes: Uint8Array
  readonly alt: string
}

/** Draws what an answer names as data, in a language and a time zone. */
export type Draw = (
  file: Attachment,
  locale: string,
  zone: string,
) => Promise<{ readonly name: string; readonly type: string; readonly bytes: Uint8Array }>

export interface Drawing {
  readonly draw: Draw
  readonly words: Catalogue
  readonly log: Log
}

/** A request may carry 25 MiB in all (Discord developer docs, reference); the form around the files needs some. */
const MOST_BYTES_TOGETHER = 24 * 1024 * 1024
/** Default size of one file (Discord developer docs, reference); an interaction may say that more is allowed. */
export const DEFAULT_FILE_BYTES = 10 * 1024 * 1024

/** Draws all files of an answer. One that fails or is too large is named instead, and the rest still goes out. */
export async function drawFiles(
  { draw, words, log }: Drawing,
  answered: Answered,
  { locale, mostBytes }: { readonly locale: string; readonly mostBytes: number },
): Promise<{ files: ReadyFile[]; missing: string[] }> {
  const files: ReadyFile[] = []
  const missing: string[] = []
  let left = MOST_BYTES_TOGETHER
  for (const [at, attachment] of answered.reply.files.entries()) {
    const alt = oneLine(speak(words, attachment.alt, { locale, escape: (typed) => typed }))
    try {
      if (files.length === MESSAGE.files) throw new Error('More files than one message holds')
      const drawn = await draw(attachment, locale, answered.zone)
      const bytes = drawn.bytes.byteLength
      if (bytes > Math.min(mostBytes, left)) throw new Error(`${bytes} bytes are more than may be sent`)
      left -= bytes
      files.push({ ...drawn, name: fileName(drawn.name, at), alt: cutText(alt, MESSAGE.altText) || '…' })
    } catch (error) {
      log.error({ error, file: attachment.name }, 'a file of an answer could not be sent')
      missing.push(alt || attachment.name)
    }
  }
  return { files, missing }
}

/** A name that can stand in `attachment://`, different for every file of a message. */
function fileName(name: string, at: number): string {
  const plain = name.replace(/[^A-Za-z0-9._-]+/g, '_').slice(-MESSAGE.fileName + 4)
  return `${at + 1}_${plain.replace(/^[._]+/, '') || 'file'}`
}
