import { scaleLinear, scaleUtc } from 'd3-scale'
import { line, symbol, symbolCircle, symbolDiamond, symbolSquare, symbolTriangle } from 'd3-shape'
import { MARGIN, PAGE_WIDTH, type Piece, sizes } from '../page.ts'
import { el, group, type SvgNode } from '../svg.ts'
import { textLine } from '../text/block.ts'
import { textWidth } from '../text/fonts.ts'
import type { Theme } from '../theme.ts'

interface Point {
  readonly day: string
  readonly value: string
}
export interface DrawnTrend {
  readonly series: readonly { readonly name: string | null; readonly points: readonly Point[] }[]
  readonly level: { readonly value: string; readonly text: string } | null
}
export interface TrendStyle {
  readonly theme: Theme
  readonly day: (day: string) => string
  readonly number: (value: string) => string
}

const WIDTH = PAGE_WIDTH - 2 * MARGIN
const PLOT = { left: 92, right: WIDTH - 26, top: 34, bottom: 370 } as const
const LEGEND_STEP = 38
const marks = [symbolCircle, symbolSquare, symbolTriangle, symbolDiamond]
/** With more points than this the values stay out of the plot. */
const MOST_VALUES = 7

/** Points joined by lines; series differ by the shape of their marks. */
export function trendDrawing(data: DrawnTrend, style: TrendStyle): Piece {
  const names = data.series.filter((one) => one.name !== null).length
  return {
    height: PLOT.bottom + 54 + names * LEGEND_STEP,
    at: (x, y) => [group(plot(data, style), `translate(${x} ${y})`)],
  }
}

function plot(data: DrawnTrend, style: TrendStyle): SvgNode[] {
  const all = data.series.flatMap((one) => one.points)
  const times = all.map((point) => Date.parse(point.day))
  const values = [...all.map((point) => point.value), ...(data.level === null ? [] : [data.level.value])].map(
    Number,
  )
  const xOf = scaleUtc([Math.min(...times), Math.max(...times)], [PLOT.left + 40, PLOT.right - 40])
  const pad = (Math.max(...values) - Math.min(...values) || Math.max(...values) || 1) * 0.25
  const yOf = scaleLinear(
    [Math.max(0, Math.min(...values) - pad), Math.max(...values) + pad],
    [PLOT.bottom, PLOT.top],
  ).nice(4)
  const place = (point: Point) => [xOf(Date.parse(point.day)), yOf(Number(point.value))] as const
  return [
    ...grid(yOf, style),
    ...(data.level === null ? [] : levelLine(data.level, yOf, style.theme)),
    ...data.series.flatMap((one, at) =>
      seriesNodes(one.points, at, { place, style, values: all.length <= MOST_VALUES }),
    ),
    ...dayLabels(all, style),
    ...legend(data, style.theme),
  ]
}

function grid(yOf: ReturnType<typeof scaleLinear<number, number>>, { theme, number }: TrendStyle): SvgNode[] {
  return yOf.ticks(4).flatMap((tick) => [
    el('rect', {
      x: PLOT.left,
      y: yOf(tick) - 1,
      width: PLOT.right - PLOT.left,
      height: 2,
      fill: theme.shade,
    }),
    textLine(PLOT.left - 12, yOf(tick) + 8, number(String(tick)), {
      size: sizes.small,
      fill: theme.ink,
      anchor: 'end',
    }),
  ])
}

function levelLine(
  level: { readonly value: string; readonly text: string },
  yOf: (value: number) => number,
  theme: Theme,
): SvgNode[] {
  const y = yOf(Number(level.value))
  return [
    el('line', {
      x1: PLOT.left,
      y1: y,
      x2: PLOT.right,
      y2: y,
      stroke: theme.ink,
      'stroke-width': 3,
      'stroke-dasharray': '10 8',
    }),
    textLine(PLOT.right, y - 10, level.text, { size: sizes.small, fill: theme.ink, anchor: 'end' }),
  ]
}

interface SeriesStyle {
  readonly place: (point: Point) => readonly [number, number]
  readonly style: TrendStyle
  readonly values: boolean
}

function seriesNodes(points: readonly Point[], at: number, { place, style, values }: SeriesStyle): SvgNode[] {
  const { theme, number } = style
  const places = points.map((point) => [...place(point)] as [number, number])
  const path = line()(places) ?? ''
  return [
    ...(places.length < 2
      ? []
      : [el('path', { d: path, fill: 'none', stroke: theme.ink, 'stroke-width': 4 })]),
    ...places.map(([x, y]) => mark(at, x, y, theme)),
    ...(values
      ? points.map((point, n) => {
          const [x, y] = places[n] ?? [0, 0]
          return textLine(x, y - 20, number(point.value), {
            size: sizes.small,
            fill: theme.ink,
            weight: 'bold',
            anchor: 'middle',
          })
        })
      : []),
  ]
}

function mark(at: number, x: number, y: number, theme: Theme): SvgNode {
  const d = symbol(marks[at % marks.length], 230)() ?? ''
  return el('path', {
    d,
    transform: `translate(${x} ${y})`,
    fill: theme.paper,
    stroke: theme.ink,
    'stroke-width': 4,
  })
}

function dayLabels(points: readonly Point[], { theme, day }: TrendStyle): SvgNode[] {
  const days = points.map((point) => point.day).sort()
  const [first, last] = [days[0] ?? '', days.at(-1) ?? '']
  const label = { size: sizes.small, fill: theme.ink }
  const y = PLOT.bottom + 36
  if (first === last)
    return [textLine((PLOT.left + PLOT.right) / 2, y, day(first), { ...label, anchor: 'middle' })]
  return [
    textLine(PLOT.left, y, day(first), label),
    textLine(PLOT.right, y, day(last), { ...label, anchor: 'end' }),
  ]
}

function legend(data: DrawnTrend, theme: Theme): SvgNode[] {
  const named = data.series.flatMap((one, at) => (one.name === null ? [] : [{ at, name: one.name }]))
  return named.flatMap(({ at, name }, rowAt) => {
    const y = PLOT.bottom + 76 + rowAt * LEGEND_STEP
    return [mark(at, 14, y - 8, theme), textLine(38, y, fitted(name), { size: sizes.small, fill: theme.ink })]
  })
}

function fitted(name: string): string {
  const most = WIDTH - 50
  let text = name
  while (textWidth(text, sizes.small) > most) text = `${[...text].slice(0, -2).join('')}…`
  return text
}
