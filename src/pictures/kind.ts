import type { z } from 'zod'
import type { Text } from '#src/conversation/text.ts'
import type { SvgNode } from './svg.ts'
import type { Theme } from './theme.ts'
import type { PictureWords } from './words.ts'

/** What a picture is drawn with: the reader's words and the tones. */
export interface Sketch {
  readonly theme: Theme
  readonly say: (text: Text) => string
  /** Words of the picture's data in the reader's language. */
  readonly words: (words: PictureWords) => string
}

export interface Drawing {
  readonly svg: SvgNode
  /** Width of the PNG in pixels. */
  readonly widthPx: number
  /** What somebody reads who cannot see it. */
  readonly alt: string
}

/** One kind of picture: what its data must be, and how it is drawn. */
export interface PictureKind<Data> {
  readonly schema: z.ZodType<Data>
  readonly draw: (data: Data, sketch: Sketch) => Drawing
}

/** A kind with its data's type closed inside: it takes anything and refuses what does not fit. */
export type AnyPictureKind = (data: unknown, sketch: Sketch) => Drawing

export function closeKind<Data>(kind: PictureKind<Data>): AnyPictureKind {
  return (data, sketch) => kind.draw(kind.schema.parse(data), sketch)
}
