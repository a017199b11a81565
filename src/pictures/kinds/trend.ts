import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { PAGE_WIDTH, page, paragraph, sizes, space } from '../page.ts'
import { Day, Decimal, PictureWords } from '../words.ts'
import { trendDrawing } from './trend-drawing.ts'

const Series = z.strictObject({
  name: PictureWords.exactOptional(),
  points: z
    .array(z.strictObject({ day: Day, value: Decimal }))
    .min(1)
    .max(60),
})

/** Measured figures over days, e.g. the outputs of one sprayer. `unit` is an id that the words can print. */
export const Trend = z.strictObject({
  title: PictureWords,
  unit: z.string().max(30),
  /** Each with a mark of its own shape. */
  series: z.array(Series).min(1).max(4),
  /** A level to compare with. */
  level: z.strictObject({ value: Decimal, text: PictureWords }).exactOptional(),
})
export type Trend = z.infer<typeof Trend>

function draw(data: Trend, sketch: Sketch): Drawing {
  const { theme, words } = sketch
  const drawing = trendDrawing(
    {
      series: data.series.map((one) => ({
        name: one.name === undefined ? null : words(one.name),
        points: [...one.points].sort((a, b) => (a.day < b.day ? -1 : 1)),
      })),
      level: data.level === undefined ? null : { value: data.level.value, text: words(data.level.text) },
    },
    {
      theme,
      day: (day) => printDay(day, sketch),
      number: (value) => sketch.say(say('picture.trend.number', { value: Number(value) })),
    },
  )
  const pieces = [
    paragraph(words(data.title), theme, { weight: 'bold', maxLines: 3 }),
    paragraph(sketch.say(say('picture.trend.unit', { unit: unitOf(data, sketch) })), theme, {
      size: sizes.small,
      quiet: true,
    }),
    space(10),
    drawing,
  ]
  return { svg: page(pieces, theme), widthPx: PAGE_WIDTH, alt: describe(data, sketch) }
}

function unitOf({ unit }: Trend, { say: inWords }: Sketch): string {
  return inWords(say('words.quantity', { quantity: { value: '1', unit } })).replace(/^1\s*/, '')
}

function printDay(day: string, { say: inWords }: Sketch): string {
  return inWords(say('picture.trend.day', { day: { day } }))
}

function describe(data: Trend, sketch: Sketch): string {
  const { words } = sketch
  const lines = data.series.map((one) => {
    const values = one.points.map(({ day, value }) => {
      const amount = sketch.say(say('words.quantity', { quantity: { value, unit: data.unit } }))
      return `${printDay(day, sketch)}: ${amount}`
    })
    return [...(one.name === undefined ? [] : [words(one.name)]), values.join('; ')].join(': ')
  })
  return [words(data.title), ...lines].join('\n')
}

export const trend: PictureKind<Trend> = { schema: Trend, draw }
