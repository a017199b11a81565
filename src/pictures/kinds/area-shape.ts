import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { PAGE_WIDTH, page, paragraph, sizes, space } from '../page.ts'
import { PictureWords } from '../words.ts'
import { outlineDrawing } from './outline-drawing.ts'

const Coordinate = z.number().min(-1e6).max(1e6)

/** A closed outline in any one unit of length, y growing upward; `lengths` label its sides in order. */
const Outline = z.strictObject({
  points: z
    .array(z.tuple([Coordinate, Coordinate]))
    .min(3)
    .max(400),
  lengths: z.array(PictureWords.nullable()).max(400).exactOptional(),
  name: PictureWords.exactOptional(),
  /** Taken out of the area: a house, a pond, a bed. */
  minus: z.boolean().exactOptional(),
})

/** A measured area as it was measured. */
export const AreaShape = z
  .strictObject({
    title: PictureWords.exactOptional(),
    area: PictureWords,
    outlines: z.array(Outline).min(1).max(20),
  })
  .refine(({ outlines }) => outlines.some((one) => spread(one.points) > 0), 'the outline has no size')
export type AreaShape = z.infer<typeof AreaShape>

function spread(points: readonly (readonly [number, number])[]): number {
  const reach = (at: 0 | 1) => Math.max(...points.map((p) => p[at])) - Math.min(...points.map((p) => p[at]))
  return Math.max(reach(0), reach(1))
}

function draw(data: AreaShape, sketch: Sketch): Drawing {
  const { theme, words } = sketch
  const outlines = data.outlines.map((one) => ({
    points: one.points,
    minus: one.minus ?? false,
    name: one.name === undefined ? null : words(one.name),
    lengths: (one.lengths ?? []).map((length) => (length === null ? null : words(length))),
  }))
  const title = data.title === undefined ? [] : [paragraph(words(data.title), theme)]
  const pieces = [
    paragraph(words(data.area), theme, { size: sizes.big, weight: 'bold', maxLines: 2 }),
    ...title,
    space(14),
    outlineDrawing(outlines, theme),
  ]
  return { svg: page(pieces, theme), widthPx: PAGE_WIDTH, alt: describe(data, sketch) }
}

function describe(data: AreaShape, { say: inWords, words }: Sketch): string {
  const sides = data.outlines.flatMap((one) => one.lengths ?? []).filter((one) => one !== null)
  const summary = inWords(
    say('picture.area-shape.alt', {
      area: words(data.area),
      corners: Math.max(...data.outlines.map((one) => one.points.length)),
      cuts: data.outlines.filter((one) => one.minus === true).length,
    }),
  )
  return [summary, ...(sides.length === 0 ? [] : [sides.map(words).join(', ')])].join('\n')
}

export const areaShape: PictureKind<AreaShape> = { schema: AreaShape, draw }
