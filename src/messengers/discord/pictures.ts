import type { Text } from '#src/conversation/text.ts'
import type { Answered } from '#src/desk/desk.ts'
import type { Draw } from '#src/messengers/draw.ts'
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
  const altOf = (text: Text) => oneLine(speak(words, text, { locale, escape: (typed) => typed }))
  const { files: attached } = answered.reply
  for (const [at, attachment] of attached.entries()) {
    const whole = altOf(attachment.alt)
    let drawing: { readonly alt: string; readonly name: string } = { alt: whole, name: attachment.name }
    // What is still to come has to fit beside it.
    const share = Math.min(mostBytes, Math.floor(left / (attached.length - at)))
    try {
      for await (const drawn of draw(attachment, { locale, zone: answered.zone, mostBytes: share })) {
        const alt = drawn.alt === undefined ? whole : altOf(drawn.alt)
        drawing = { alt, name: drawn.name }
        if (files.length === MESSAGE.files || drawn.size > Math.min(mostBytes, left)) {
          log.error({ file: drawn.name, size: drawn.size }, 'a file of an answer is more than may be sent')
          missing.push(alt || drawn.name)
          continue
        }
        left -= drawn.size
        const { type } = drawn
        const name = fileName(drawn.name, files.length)
        files.push({ name, type, bytes: await drawn.read(), alt: cutText(alt, MESSAGE.altText) || '…' })
      }
    } catch (error) {
      log.error({ error, file: drawing.name }, 'a file of an answer could not be sent')
      missing.push(drawing.alt || drawing.name)
    }
  }
  return { files, missing }
}

/** A name that can stand in `attachment://`, different for every file of a message. */
function fileName(name: string, at: number): string {
  const plain = name.replace(/[^A-Za-z0-9._-]+/g, '_').slice(-MESSAGE.fileName + 4)
  return `${at + 1}_${plain.replace(/^[._]+/, '') || 'file'}`
}
