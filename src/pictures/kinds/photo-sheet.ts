import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { MARGIN, PAGE_WIDTH, type Piece, page, paragraph, row, sizes, space } from '../page.ts'
import { el } from '../svg.ts'
import { textBlock } from '../text/block.ts'
import { PictureWords } from '../words.ts'

export const PHOTO_SHEET = 'photo-sheet'

/** As many as stay readable on one screen of a phone, two side by side. */
export const MOST_PHOTOS = 8

/** Photos side by side in the order of their days, each under its day. The kept bytes are laid into its frames. */
export const PhotoSheet = z.strictObject({
  title: PictureWords,
  photos: z
    .array(z.strictObject({ blob: z.string(), caption: PictureWords }))
    .min(1)
    .max(MOST_PHOTOS),
})
export type PhotoSheet = z.infer<typeof PhotoSheet>

/** Pixels for each unit of the page: a photo is looked at closer than a drawing. */
export const PHOTO_SCALE = 2

const COLUMNS = 2
const GAP = 16
const CAPTION_GAP = 6
/** Most phones take photos of four to three. */
const PROPORTION = 4 / 3

/** Where a photo goes, in units of the page. */
export interface Frame {
  readonly blob: string
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

type Photo = PhotoSheet['photos'][number]

/** The frames of a sheet, where they stand on its page. */
export function photoFrames(data: PhotoSheet, sketch: Sketch): readonly Frame[] {
  return layOut(data, sketch).frames
}

function draw(data: PhotoSheet, sketch: Sketch): Drawing {
  const { words, theme } = sketch
  const captions = data.photos.map(({ caption }) => words(caption))
  return {
    svg: page(layOut(data, sketch).pieces, theme),
    widthPx: PAGE_WIDTH * PHOTO_SCALE,
    alt: [words(data.title), ...captions].join('. '),
  }
}

function layOut(data: PhotoSheet, sketch: Sketch) {
  const { theme, words } = sketch
  const columns = Math.min(COLUMNS, data.photos.length)
  const width = (PAGE_WIDTH - 2 * MARGIN - (columns - 1) * GAP) / columns
  const height = width / PROPORTION
  const pieces: Piece[] = [
    paragraph(words(data.title), theme, { size: sizes.body, weight: 'bold', maxLines: 3 }),
  ]
  const frames: Frame[] = []
  for (let from = 0; from < data.photos.length; from += columns) {
    const photos = data.photos.slice(from, from + columns)
    pieces.push(space(GAP), row(photos.map(captionOf(sketch, width)), width, GAP), space(CAPTION_GAP))
    const y = MARGIN + pieces.reduce((sum, piece) => sum + piece.height, 0)
    frames.push(...photos.map(({ blob }, at) => ({ blob, x: MARGIN + at * (width + GAP), y, width, height })))
    const empty = emptyFrame(sketch, width, height)
    pieces.push(
      row(
        photos.map(() => empty),
        width,
        GAP,
      ),
    )
  }
  return { pieces, frames }
}

const captionOf =
  ({ theme, words }: Sketch, width: number) =>
  ({ caption }: Photo): Piece =>
    paragraph(words(caption), theme, { width, size: sizes.small, maxLines: 3 })

/** What is seen where a photo cannot be read; a photo covers it. */
function emptyFrame({ theme, say: inWords }: Sketch, width: number, height: number): Piece {
  const block = textBlock(
    inWords(say('picture.photo-sheet.unreadable')),
    { size: sizes.small, width: width - 2 * GAP, maxLines: 3 },
    { fill: theme.ink, anchor: 'middle' },
  )
  return {
    height,
    at: (x, y) => [
      el('rect', { x, y, width, height, fill: 'none', stroke: theme.quiet, 'stroke-width': 2 }),
      ...block.at(x + width / 2, y + (height - block.height) / 2),
    ],
  }
}

export const photoSheet: PictureKind<PhotoSheet> = { schema: PhotoSheet, draw }
