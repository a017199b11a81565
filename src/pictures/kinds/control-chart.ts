import { z } from 'zod'
import { say } from '#src/conversation/text.ts'
import type { Drawing, PictureKind, Sketch } from '../kind.ts'
import { PAGE_WIDTH, page, paragraph, sizes, space } from '../page.ts'
import { Day, PictureWords } from '../words.ts'
import { controlDrawing, type DrawnSeries } from './control-drawing.ts'

/** Percent control may be below zero: worse than the untreated spot. */
const Percent = z.string().regex(/^-?\d{1,4}(\.\d{1,50})?$/, 'a percentage such as 75 or -12.5')
const Points = z
  .array(z.strictObject({ day: Day, value: Percent }))
  .min(1)
  .max(40)

/** Control or cover over days: each plot with a line and mark of its own, the untreated spot, applications and rain. */
export const ControlChart = z.strictObject({
  title: PictureWords,
  measure: z.enum(['control', 'cover']),
  plots: z
    .array(z.strictObject({ name: PictureWords, points: Points }))
    .min(1)
    .max(5),
  untreated: Points.exactOptional(),
  applications: z.array(Day).max(6),
  rain: z.array(Day).max(60),
})
export type ControlChart = z.infer<typeof ControlChart>

const MS_PER_DAY = 86_400_000

function draw(data: ControlChart, sketch: Sketch): Drawing {
  const { theme, say: inWords, words } = sketch
  const start = startOf(data)
  const drawing = controlDrawing(
    {
      series: seriesOf(data, start, sketch),
      applications: data.applications.map((day) => dayNumber(start, day)).sort((a, b) => a - b),
      rain: [...new Set(data.rain)].map((day) => dayNumber(start, day)).sort((a, b) => a - b),
    },
    {
      theme,
      percent: (value) => inWords(say('recheck.chart.value', { value: Math.round(value) })),
      words: {
        application: inWords(say('recheck.chart.application')),
        rain: inWords(say('recheck.chart.rain')),
      },
    },
  )
  const pieces = [
    paragraph(words(data.title), theme, { weight: 'bold', maxLines: 3 }),
    paragraph(inWords(measureOf(data)), theme, { size: sizes.small, maxLines: 2 }),
    space(10),
    drawing,
    paragraph(inWords(axisOf(data, start)), theme, { size: sizes.small, align: 'middle', maxLines: 2 }),
  ]
  return { svg: page(pieces, theme), widthPx: PAGE_WIDTH, alt: describe(data, sketch) }
}

function measureOf({ measure }: ControlChart) {
  return measure === 'control' ? say('recheck.chart.control') : say('recheck.chart.cover')
}

function axisOf({ applications }: ControlChart, start: string) {
  const day = { day: start }
  return applications.length > 0
    ? say('recheck.chart.days', { day })
    : say('recheck.chart.days-seen', { day })
}

/** Days are counted from the first application, or from the first day seen where none is given. */
function startOf({ applications, plots, untreated = [] }: ControlChart): string {
  const seen = [...plots.flatMap(({ points }) => points), ...untreated].map(({ day }) => day)
  return [...(applications.length > 0 ? applications : seen)].sort()[0] ?? ''
}

function dayNumber(start: string, day: string): number {
  return Math.round((Date.parse(day) - Date.parse(start)) / MS_PER_DAY)
}

function seriesOf(
  data: ControlChart,
  start: string,
  { say: inWords, words }: Sketch,
): readonly DrawnSeries[] {
  const numbered = (points: z.infer<typeof Points>) =>
    points
      .map(({ day, value }) => ({ day: dayNumber(start, day), percent: Number(value) }))
      .sort((a, b) => a.day - b.day)
  const plots = data.plots.map(({ name, points }) => ({
    name: words(name),
    isUntreated: false,
    points: numbered(points),
  }))
  if (data.untreated === undefined) return plots
  const name = inWords(say('recheck.chart.untreated'))
  return [...plots, { name, isUntreated: true, points: numbered(data.untreated) }]
}

function describe(data: ControlChart, sketch: Sketch): string {
  const { say: inWords, words } = sketch
  const start = startOf(data)
  const lines = seriesOf(data, start, sketch).map(({ name, points }) => {
    const values = points.map(({ day, percent }) =>
      inWords(say('recheck.chart.point', { day, value: Math.round(percent) })),
    )
    return `${name}: ${values.join('; ')}`
  })
  const marks = (what: string, days: readonly string[]) =>
    days.length === 0
      ? []
      : [
          inWords(
            say('recheck.chart.mark', {
              what: { literal: what },
              days: {
                literal: [...days]
                  .sort()
                  .map((day) => dayNumber(start, day))
                  .join(', '),
              },
            }),
          ),
        ]
  return [
    words(data.title),
    inWords(measureOf(data)),
    ...lines,
    ...marks(inWords(say('recheck.chart.application')), data.applications),
    ...marks(inWords(say('recheck.chart.rain')), data.rain),
  ].join('\n')
}

export const controlChart: PictureKind<ControlChart> = { schema: ControlChart, draw }
