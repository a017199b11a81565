import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import { framedFigure } from '../figures/framed.ts'
import { figureWordsId, hasFigure } from '../figures/place.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { MARGIN, PAGE_WIDTH, type Piece, page, paragraph, row, rule, sizes, space, stack } from '../page.ts'
import { PictureWords } from '../words.ts'

const Told = z
  .strictObject({ character: z.string(), state: z.string(), text: PictureWords })
  .refine(hasFigure, 'there is no figure of this character and state')

/** Plants that pass for one another, and what tells them apart. */
export const KeyCompare = z.strictObject({
  title: PictureWords.exactOptional(),
  sides: z
    .array(
      z.strictObject({
        name: PictureWords,
        scientific: PictureWords.exactOptional(),
        figures: z.array(Told).min(1).max(6),
      }),
    )
    .min(2)
    .max(6),
  tell: PictureWords.exactOptional(),
})
export type KeyCompare = z.infer<typeof KeyCompare>
type Side = KeyCompare['sides'][number]

const GAP = 22

function draw(data: KeyCompare, sketch: Sketch): Drawing {
  const { theme, words } = sketch
  const columns = data.sides.length === 3 || data.sides.length > 4 ? 3 : 2
  const width = (PAGE_WIDTH - 2 * MARGIN - (columns - 1) * GAP) / columns
  const bands = Array.from({ length: Math.ceil(data.sides.length / columns) }, (_, at) =>
    band(data.sides.slice(at * columns, (at + 1) * columns), width, sketch),
  )
  const pieces = [
    ...(data.title === undefined ? [] : [paragraph(words(data.title), theme, { weight: 'bold' }), space(14)]),
    ...bands,
    ...(data.tell === undefined ? [] : [rule(theme), paragraph(words(data.tell), theme)]),
  ]
  return { svg: page(pieces, theme), widthPx: PAGE_WIDTH, alt: describe(data, sketch) }
}

/** Sides next to each other; their figures stand in rows of one height. */
function band(sides: readonly Side[], width: number, sketch: Sketch): Piece {
  const most = Math.max(...sides.map((side) => side.figures.length))
  const rows = Array.from({ length: most }, (_, at) =>
    row(
      sides.map((side) => told(side.figures[at], width, sketch)),
      width,
      GAP,
    ),
  )
  return stack([
    row(
      sides.map((side) => heading(side, width, sketch)),
      width,
      GAP,
    ),
    space(10),
    ...rows,
  ])
}

function heading(side: Side, width: number, { theme, words }: Sketch): Piece {
  const scientific = side.scientific === undefined ? [] : [words(side.scientific)]
  return stack([
    paragraph(words(side.name), theme, { width, weight: 'bold', maxLines: 3 }),
    ...scientific.map((name) =>
      paragraph(name, theme, { width, size: sizes.small, quiet: true, maxLines: 3 }),
    ),
  ])
}

function told(one: Side['figures'][number] | undefined, width: number, { theme, words }: Sketch): Piece {
  if (one === undefined) return space(0)
  return stack([
    framedFigure(one, theme, width),
    space(6),
    paragraph(words(one.text), theme, { width, size: sizes.small, maxLines: 5 }),
    space(16),
  ])
}

function describe(data: KeyCompare, { say: inWords, words }: Sketch): string {
  const sides = data.sides.map((side) => {
    const marks = side.figures.map((one) => `${words(one.text)} (${inWords(say(figureWordsId(one)))})`)
    return `${words(side.name)}: ${marks.join('; ')}`
  })
  return [...(data.tell === undefined ? [] : [words(data.tell)]), ...sides].join('\n')
}

export const keyCompare: PictureKind<KeyCompare> = { schema: KeyCompare, draw }
