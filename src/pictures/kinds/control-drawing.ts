import { scaleLinear } from 'd3-scale'
import { MARGIN, PAGE_WIDTH, type Piece, sizes } from '../page.ts'
import { el, group, type SvgNode } from '../svg.ts'
import { textLine } from '../text/block.ts'
import { textWidth } from '../text/fonts.ts'
import { wrapText } from '../text/wrap.ts'
import type { Theme } from '../theme.ts'
import { mark, patternAt } from './control-marks.ts'
import { spreadApart } from './spread-apart.ts'

export interface DrawnSeries {
  readonly name: string
  readonly isUntreated: boolean
  readonly points: readonly { readonly day: number; readonly percent: number }[]
}

export interface DrawnControl {
  readonly series: readonly DrawnSeries[]
  readonly applications: readonly number[]
  readonly rain: readonly number[]
}

export interface ControlStyle {
  readonly theme: Theme
  readonly percent: (value: number) => string
  readonly words: { readonly application: string; readonly rain: string }
}

const WIDTH = PAGE_WIDTH - 2 * MARGIN
/** Names stand beside the ends of their lines, in the gutter to the right. */
const PLOT = { left: 84, right: WIDTH - 178, top: 66, bottom: 470 } as const
/** Rain has a strip of its own below the plot, and the days stand under it. */
const RAIN_Y = PLOT.bottom + 36
const DAYS_Y = PLOT.bottom + 82
const LABEL_STEP = 28

interface Scales {
  readonly x: (day: number) => number
  readonly y: (percent: number) => number
  readonly lastDay: number
  readonly ticks: readonly number[]
}

/** Percent over days, every line named where it ends; nothing in it depends on a tone. */
export function controlDrawing(data: DrawnControl, style: ControlStyle): Piece {
  return {
    height: DAYS_Y + 18,
    at: (x, y) => [group(plotNodes(data, style), `translate(${x} ${y})`)],
  }
}

function plotNodes(data: DrawnControl, style: ControlStyle): SvgNode[] {
  const scales = scalesOf(data)
  return [
    ...grid(scales, style),
    ...applicationNodes(data.applications, scales, style),
    ...rainNodes(data.rain, scales, style),
    ...dayNodes(data, scales, style.theme),
    ...data.series.flatMap((one, at) => lineNodes(one, at, { scales, theme: style.theme })),
    ...nameNodes(data.series, scales, style),
  ]
}

function scalesOf({ series, applications, rain }: DrawnControl): Scales {
  const points = series.flatMap((one) => one.points)
  const days = [...points.map(({ day }) => day), ...applications, ...rain]
  const lastDay = Math.max(...days, 7)
  const firstDay = Math.min(...days, 0)
  const least = Math.min(0, ...points.map(({ percent }) => percent))
  const lowest = Math.floor(least / 25) * 25
  const step = lowest < -100 ? Math.ceil((100 - lowest) / 500) * 100 : 25
  const bottom = Math.floor(least / step) * step
  const x = scaleLinear([firstDay, lastDay], [PLOT.left + 22, PLOT.right - 16])
  const y = scaleLinear([bottom, 100], [PLOT.bottom, PLOT.top])
  const count = Math.round((100 - bottom) / step)
  return { x, y, lastDay, ticks: Array.from({ length: count + 1 }, (_, at) => bottom + at * step) }
}

function grid({ y, ticks }: Scales, { theme, percent }: ControlStyle): SvgNode[] {
  return ticks.flatMap((tick) => [
    el('rect', {
      x: PLOT.left,
      y: y(tick) - (tick === 0 ? 1.5 : 1),
      width: PLOT.right - PLOT.left,
      height: tick === 0 ? 3 : 2,
      fill: tick === 0 ? theme.ink : theme.shade,
    }),
    textLine(PLOT.left - 10, y(tick) + 8, percent(tick), {
      size: sizes.small,
      fill: theme.ink,
      anchor: 'end',
    }),
  ])
}

/** A line from top to bottom under a solid arrowhead; the first one is named. */
function applicationNodes(days: readonly number[], { x }: Scales, { theme, words }: ControlStyle): SvgNode[] {
  return days.flatMap((day, at) => {
    const here = x(day)
    const name = textLine(Math.max(here - 14, 0), PLOT.top - 42, words.application, {
      size: sizes.small,
      fill: theme.ink,
    })
    return [
      el('line', {
        x1: here,
        y1: PLOT.top - 16,
        x2: here,
        y2: PLOT.bottom,
        stroke: theme.ink,
        'stroke-width': 3,
      }),
      el('path', {
        d: `M${here - 13} ${PLOT.top - 34}h26l-13 22Z`,
        fill: theme.ink,
      }),
      ...(at === 0 ? [name] : []),
    ]
  })
}

/** A drop for each day of rain, in a strip below the plot, with its name before the first. */
function rainNodes(days: readonly number[], { x }: Scales, { theme, words }: ControlStyle): SvgNode[] {
  if (days.length === 0) return []
  const drops = days.map((day) => {
    const here = x(day)
    return el('path', {
      d: `M${here} ${RAIN_Y - 15}C${here + 3} ${RAIN_Y - 8} ${here + 9} ${RAIN_Y - 3} ${here + 9} ${RAIN_Y + 4}A9 9 0 0 1 ${here - 9} ${RAIN_Y + 4}C${here - 9} ${RAIN_Y - 3} ${here - 3} ${RAIN_Y - 8} ${here} ${RAIN_Y - 15}Z`,
      fill: theme.paper,
      stroke: theme.ink,
      'stroke-width': 3,
    })
  })
  const name = textLine(PLOT.left - 10, RAIN_Y + 8, words.rain, {
    size: sizes.small,
    fill: theme.ink,
    anchor: 'end',
  })
  return [name, ...drops]
}

/** The days of visits and applications; where two would touch, the later one stays out, but the last always stands. */
function dayNodes({ series, applications }: DrawnControl, { x }: Scales, theme: Theme): SvgNode[] {
  const all = [...new Set([...applications, ...series.flatMap(({ points }) => points.map(({ day }) => day))])]
  const days = all.sort((a, b) => a - b)
  const last = days.at(-1) ?? 0
  const half = (day: number) => textWidth(String(day), sizes.small) / 2 + 6
  const isClear = (day: number, other: number) => Math.abs(x(other) - x(day)) >= half(day) + half(other)
  const shown = days.reduce<number[]>((kept, day) => {
    const before = kept.at(-1)
    const fits = before === undefined || isClear(day, before)
    if (fits && (day === last || isClear(day, last))) kept.push(day)
    return kept
  }, [])
  return shown.flatMap((day) => [
    el('rect', { x: x(day) - 1.5, y: PLOT.bottom, width: 3, height: 10, fill: theme.ink }),
    textLine(x(day), DAYS_Y, String(day), { size: sizes.small, fill: theme.ink, anchor: 'middle' }),
  ])
}

function lineNodes(
  { points, isUntreated }: DrawnSeries,
  at: number,
  { scales, theme }: { readonly scales: Scales; readonly theme: Theme },
): SvgNode[] {
  const places = points.map(({ day, percent }) => [scales.x(day), scales.y(percent)] as const)
  const { dashes } = patternAt(at, isUntreated)
  const d = `M${places.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join('L')}`
  return [
    ...(places.length < 2
      ? []
      : [
          el('path', {
            d,
            fill: 'none',
            stroke: theme.ink,
            'stroke-width': 4,
            'stroke-linejoin': 'round',
            ...(dashes === null ? {} : { 'stroke-dasharray': dashes }),
          }),
        ]),
    ...places.map(([x, y]) => mark({ at, isUntreated }, { x, y, theme })),
  ]
}

/** Each name beside the end of its line, moved apart where lines end together, with a thin line back to its point. */
function nameNodes(
  series: readonly DrawnSeries[],
  scales: Scales,
  { theme, percent }: ControlStyle,
): SvgNode[] {
  const labels = series.map((one, at) => {
    const last = one.points.at(-1) ?? { day: 0, percent: 0 }
    const width = WIDTH - PLOT.right - 44
    const name = wrapText(one.name, { size: sizes.small, width, maxLines: 2 })
    return { at, one, name, value: percent(last.percent), x: scales.x(last.day), y: scales.y(last.percent) }
  })
  const heights = labels.map(({ name }) => (name.length + 1) * LABEL_STEP + 8)
  const middles = spreadApart(
    labels.map(({ y }, at) => ({ middle: y, height: heights[at] ?? 0 })),
    { top: PLOT.top - 30, bottom: DAYS_Y + 10 },
  )
  return labels.flatMap(({ at, one, name, value, x, y }, index) => {
    const top = (middles[index] ?? y) - (heights[index] ?? 0) / 2
    const left = PLOT.right + 44
    const keyY = top + LABEL_STEP / 2 + 4
    return [
      el('line', { x1: x + 14, y1: y, x2: PLOT.right + 8, y2: keyY, stroke: theme.ink, 'stroke-width': 1.5 }),
      mark({ at, isUntreated: one.isUntreated }, { x: PLOT.right + 24, y: keyY, theme }),
      textLine(left, top + LABEL_STEP - 3, value, { size: sizes.small, fill: theme.ink, weight: 'bold' }),
      ...name.map((text, lineAt) =>
        textLine(left, top + (lineAt + 2) * LABEL_STEP - 3, text, { size: sizes.small, fill: theme.ink }),
      ),
    ]
  })
}
