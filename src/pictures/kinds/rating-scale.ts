import { z } from 'zod'
import { say, type Text } from '#src/conversation/text.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { MARGIN, PAGE_WIDTH, type Piece, page, paragraph, row, sizes, space, stack } from '../page.ts'
import { group } from '../svg.ts'
import { PictureWords } from '../words.ts'
import { PLOT_SIDE, ratedPlot } from './rated-plot.ts'

const Step = z.union([
  z.literal(0),
  z.literal(25),
  z.literal(50),
  z.literal(75),
  z.literal(90),
  z.literal(100),
])

/** What percents of control look like: the same plot with more and more of its weeds dead. */
export const RatingScale = z.strictObject({
  title: PictureWords,
  steps: z.array(Step).min(1).max(6),
})
export type RatingScale = z.infer<typeof RatingScale>

const COLUMNS = 3
const GAP = 20
const CELL = (PAGE_WIDTH - 2 * MARGIN - (COLUMNS - 1) * GAP) / COLUMNS

function draw(data: RatingScale, sketch: Sketch): Drawing {
  const { theme, words } = sketch
  const steps = [...data.steps].sort((a, b) => a - b)
  const cells = steps.map((step) => cell(step, sketch))
  const rows = Array.from({ length: Math.ceil(cells.length / COLUMNS) }, (_, at) => [
    space(14),
    row(cells.slice(at * COLUMNS, (at + 1) * COLUMNS), CELL, GAP),
  ])
  const title = paragraph(words(data.title), theme, { weight: 'bold', maxLines: 3 })
  return { svg: page([title, ...rows.flat()], theme), widthPx: PAGE_WIDTH, alt: describe(data, sketch) }
}

function cell(step: number, { theme, say: inWords }: Sketch): Piece {
  const plot: Piece = {
    height: CELL + 8,
    at: (x, y) => [
      group(ratedPlot(step, theme), `translate(${x} ${y}) scale(${(CELL / PLOT_SIDE).toFixed(4)})`),
    ],
  }
  return stack([
    plot,
    paragraph(inWords(percentOf(step)), theme, { width: CELL, weight: 'bold', align: 'middle' }),
    paragraph(inWords(wordsOf(step)), theme, {
      width: CELL,
      size: sizes.small,
      align: 'middle',
      maxLines: 2,
    }),
  ])
}

function percentOf(step: number): Text {
  return say('recheck.scale.step', { value: step })
}

function wordsOf(step: number): Text {
  return say(`recheck.step-${step}`)
}

function describe(data: RatingScale, { say: inWords, words }: Sketch): string {
  const lines = data.steps.map((step) => `${inWords(percentOf(step))}: ${inWords(wordsOf(step))}`)
  return [words(data.title), ...lines].join('\n')
}

export const ratingScale: PictureKind<RatingScale> = { schema: RatingScale, draw }
