import { say, type Text } from '#src/conversation/text.ts'
import type { Plot } from '#src/store/plots.ts'

/** What photos of a plot are kept under. */
export const PLOT_PHOTOS = 'plot'

/** Flag of the one plot that stands for all of the treated ground. */
export const WHOLE = 'whole area'

/** "Plot 1: by the drive, 3 ft x 3 ft, 40 % weeds before". */
export function sayPlot({ kind, flag, body }: Plot): Text {
  const parts = [
    ...(body.where === '' ? [] : [body.where]),
    ...(body.size === '' ? [] : [body.size]),
    ...(body.coverPercent === null ? [] : [say('visits.cover-before', { percent: body.coverPercent })]),
  ]
  return parts.length === 0
    ? say(`visits.plot-${kind}`, { flag })
    : say(`visits.plot-${kind}-at`, { flag, where: { all: parts } })
}
