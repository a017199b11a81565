import { copyFile, writeFile } from 'node:fs/promises'
import { isHeic } from '#src/conversation/heic.ts'
import type { Attachment } from '#src/conversation/reply.ts'
import { say, type Text } from '#src/conversation/text.ts'
import { BoundedMap } from '#src/memory/bounded-map.ts'
import type { PaperFile } from '#src/papers/draw-paper.ts'
import { HISTORY_PAPER } from '#src/papers/history-order.ts'
import type { Picture } from '#src/pictures/draw-picture.ts'
import { PHOTO_SHEET } from '#src/pictures/kinds/photo-sheet.ts'
import type { ThemeName } from '#src/pictures/theme.ts'
import type { Blobs } from '#src/store/blobs.ts'
import type { Database } from '#src/store/open.ts'
import type { Catalogue } from '#src/words/catalogue.ts'
import { speak } from '#src/words/speak.ts'

/** A file as it leaves: drawn after the commit, or read from what is kept. */
export interface Drawn {
  readonly name: string
  readonly type: string
  readonly size: number
  /** What it holds, where that is not the attachment as it is kept: a part, or a smaller copy. */
  readonly alt?: Text
  read(): Promise<Uint8Array>
  saveAs(place: string): Promise<void>
}

export interface DrawOptions {
  readonly locale: string
  readonly zone: string
  /** The largest file that may leave: a paper above it goes in parts, a photo as a smaller copy. */
  readonly mostBytes: number
  /** The paper of pictures. @default light */
  readonly theme?: ThemeName
}

/**
 * Turns a named picture, paper or kept file into files; most are one. A file is there until the next one is asked for:
 * papers lie on disk, and go from there.
 */
export type Draw = (file: Attachment, options: DrawOptions) => AsyncIterable<Drawn>

export function drawer(parts: {
  readonly words: Catalogue
  readonly blobs: Blobs
  readonly database: Database
}): Draw {
  const pictures = recentPictures()
  return async function* draw(file, { locale, zone, mostBytes, theme = 'light' }) {
    const { from } = file
    const inWords = (text: Parameters<typeof speak>[1]) =>
      speak(parts.words, text, { locale, escape: (typed) => typed, zone })
    if ('blob' in from) yield await keptFile(file, await parts.blobs.read(from.blob), mostBytes)
    else if ('picture' in from && from.picture === PHOTO_SHEET) {
      const { drawPhotos } = await import('#src/pictures/draw-photos.ts')
      const { read } = parts.blobs
      yield inMemory(
        file.name,
        'image/jpeg',
        await drawPhotos(from.data, { say: inWords, theme, readBlob: read }),
      )
    } else if ('picture' in from) {
      const { picture, data } = from
      const { type, bytes } = await pictures(
        JSON.stringify([picture, data, locale, zone, theme]),
        async () => {
          // Loaded when first needed: most answers have no picture.
          const { drawPicture } = await import('#src/pictures/draw-picture.ts')
          return drawPicture(picture, data, { say: inWords, theme })
        },
      )
      yield inMemory(file.name, type, bytes)
    } else if (from.paper === HISTORY_PAPER) {
      const { drawPlotHistory } = await import('#src/papers/plot-history.ts')
      const bytes = await drawPlotHistory(from.data, { say: inWords, readBlob: parts.blobs.read })
      yield inMemory(file.name, 'application/pdf', bytes)
    } else {
      const { drawPaper } = await import('#src/papers/draw-paper.ts')
      const { database, words } = parts
      for await (const paper of drawPaper(from.paper, from.data, { database, words, mostBytes }))
        yield onDisk(paper)
    }
  }
}

/** The first questions of the key are asked of many people, and putting one into lines takes longer than its answer. */
const PICTURES_KEPT = 48

/** Draws what was not drawn lately; the same data in the same language are the same picture. */
function recentPictures() {
  const kept = new BoundedMap<string, Promise<Picture>>(PICTURES_KEPT)
  return (key: string, draw: () => Promise<Picture>): Promise<Picture> => {
    const found = kept.get(key)
    const picture = found ?? draw()
    kept.set(key, picture)
    if (found === undefined) picture.catch(() => kept.delete(key))
    return picture
  }
}

/** A small file that needs no disk. */
export function inMemory(name: string, type: string, bytes: Uint8Array): Drawn {
  return {
    name,
    type,
    size: bytes.byteLength,
    read: async () => bytes,
    saveAs: (place) => writeFile(place, bytes),
  }
}

function onDisk({ name, type, size, alt, path, read }: PaperFile): Drawn {
  return { name, type, size, alt, read, saveAs: (place) => copyFile(path, place) }
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

/**
 * A kept file by the ending of its name; without one its content tells what it is. A photo that is larger than may leave
 * goes as a smaller copy, and says so.
 */
async function keptFile({ name, alt }: Attachment, bytes: Uint8Array, mostBytes: number): Promise<Drawn> {
  const kept = await asKept(name, bytes)
  const whole = isHeic(kept.type) ? { ...kept, alt: say('log-photos.heic-shown', { what: alt }) } : kept
  if (whole.size <= mostBytes || !whole.type.startsWith('image/')) return whole
  // Loaded when first needed: most answers have no photo.
  const { shrinkPhoto } = await import('#src/pictures/shrink-photo.ts')
  const copy = await shrinkPhoto(bytes, mostBytes)
  if (copy === null) return whole
  const small = inMemory(`${whole.name.replace(/\.\w+$/, '')}.jpg`, 'image/jpeg', copy)
  return { ...small, alt: say('log-photos.smaller', { what: alt }) }
}

async function asKept(name: string, bytes: Uint8Array): Promise<Drawn> {
  const named = TYPES[name.split('.').at(-1)?.toLowerCase() ?? '']
  if (named !== undefined) return inMemory(name, named, bytes)
  const { fileTypeFromBuffer } = await import('file-type')
  const sniffed = await fileTypeFromBuffer(bytes)
  return sniffed === undefined
    ? inMemory(name, 'application/octet-stream', bytes)
    : inMemory(`${name}.${sniffed.ext}`, sniffed.mime, bytes)
}
