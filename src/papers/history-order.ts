import { z } from 'zod'
import { Text } from '#src/conversation/text.ts'

export const HISTORY_PAPER = 'plot-history'

/** As many as fit side by side on a page. */
export const MOST_PHOTOS = 4

/** One page that a client is shown: what was done, what was seen, the chart, and photos side by side by day. */
export const PlotHistory = z.strictObject({
  title: Text,
  crew: z.string(),
  isDemo: z.boolean(),
  lines: z.array(Text),
  chart: z.json().nullable(),
  photos: z.array(z.strictObject({ blob: z.string(), caption: Text })).max(MOST_PHOTOS),
})
export type PlotHistory = z.infer<typeof PlotHistory>
