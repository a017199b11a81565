import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import { framedFigure } from '../figures/framed.ts'
import { figureWordsId, hasFigure } from '../figures/place.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { MARGIN, page, paragraph, space } from '../page.ts'
import { PictureWords } from '../words.ts'

/** One state of one character, large. */
export const KeyState = z
  .strictObject({ character: z.string(), state: z.string(), text: PictureWords.exactOptional() })
  .refine(hasFigure, 'there is no figure of this character and state')
export type KeyState = z.infer<typeof KeyState>

const WIDTH = 480

function draw(data: KeyState, sketch: Sketch): Drawing {
  const inner = WIDTH - 2 * MARGIN
  const text =
    data.text === undefined
      ? []
      : [space(10), paragraph(sketch.words(data.text), sketch.theme, { width: inner })]
  return {
    svg: page([framedFigure(data, sketch.theme, inner), ...text], sketch.theme, WIDTH),
    widthPx: WIDTH,
    alt: sketch.say(say(figureWordsId(data))),
  }
}

export const keyState: PictureKind<KeyState> = { schema: KeyState, draw }
