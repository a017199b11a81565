import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import { framedFigure } from '../figures/framed.ts'
import { figureWordsId, hasFigure } from '../figures/place.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { MARGIN, PAGE_WIDTH, type Piece, page, paragraph, row, sizes, space, stack } from '../page.ts'
import { PictureWords } from '../words.ts'

/** One question of the key: its character and the states that are offered, in the order of the buttons. */
export const KeyQuestion = z
  .strictObject({
    character: z.string(),
    question: PictureWords.exactOptional(),
    states: z
      .array(
        z.strictObject({
          id: z.string(),
          text: PictureWords,
          /** What stands on its button; by default its place in the list. */
          mark: z.string().max(6).exactOptional(),
        }),
      )
      .min(1)
      .max(36),
  })
  .superRefine(({ character, states }, context) => {
    for (const [at, { id: state }] of states.entries()) {
      if (!hasFigure({ character, state })) {
        context.addIssue({
          code: 'custom',
          path: ['states', at, 'id'],
          message: `no figure of ${character} ${state}`,
        })
      }
    }
  })
export type KeyQuestion = z.infer<typeof KeyQuestion>

const GAP = 22

/** Few states are drawn large, many small. */
function columnsFor(states: number): number {
  return states <= 4 ? 2 : 3
}

function draw(data: KeyQuestion, sketch: Sketch): Drawing {
  const { theme } = sketch
  const columns = columnsFor(data.states.length)
  const width = (PAGE_WIDTH - 2 * MARGIN - (columns - 1) * GAP) / columns
  const cells = data.states.map(({ id, text, mark }, at): Piece => {
    const label = `${mark ?? at + 1}: ${sketch.words(text)}`
    return stack([
      framedFigure({ character: data.character, state: id }, theme, width),
      space(6),
      paragraph(label, theme, { width, size: sizes.small, weight: 'bold', maxLines: 4 }),
      space(GAP),
    ])
  })
  const rows = Array.from({ length: Math.ceil(cells.length / columns) }, (_, at) =>
    row(cells.slice(at * columns, (at + 1) * columns), width, GAP),
  )
  const question = data.question === undefined ? null : sketch.words(data.question)
  const title = question === null ? [] : [paragraph(question, theme, { weight: 'bold' }), space(18)]
  return { svg: page([...title, ...rows], theme), widthPx: PAGE_WIDTH, alt: describe(data, question, sketch) }
}

function describe(data: KeyQuestion, question: string | null, sketch: Sketch): string {
  const lines = data.states.map(({ id, text, mark }, at) => {
    const figure = sketch.say(say(figureWordsId({ character: data.character, state: id })))
    return `${mark ?? at + 1}: ${sketch.words(text)} (${figure})`
  })
  return [...(question === null ? [] : [question]), ...lines].join('\n')
}

export const keyQuestion: PictureKind<KeyQuestion> = { schema: KeyQuestion, draw }
