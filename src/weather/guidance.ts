import { z } from 'zod'
import { Decimal } from '#src/quantity/rate.ts'

/** Who says so, spelled out; `url` is where the text was seen. */
export const Source = z.strictObject({ name: z.string().min(1), url: z.url().nullable() })
export type Source = z.infer<typeof Source>

/** One published piece of advice on wind, in miles an hour; null where it names no such end. */
export const WindAdvice = z.strictObject({
  id: z.string().min(1),
  leastMph: Decimal.nullable(),
  mostMph: Decimal.nullable(),
  /** Advice for turf or spraying in general, an example of a label, a legal limit of one place, or another country's. */
  kind: z.enum(['advice', 'label example', 'law of one place', 'abroad']),
  remark: z.string(),
  source: Source,
})
export type WindAdvice = z.infer<typeof WindAdvice>

/** Advice on heat or cold, for the mode-of-action groups of which the source speaks. */
export const HeatAdvice = z.strictObject({
  id: z.string().min(1),
  /** Groups as printed on labels; `any` for every product that works through the leaf. */
  groups: z.union([z.literal('any'), z.array(z.string()).min(1)]),
  /** What is compared: the highest temperature forecast for the next 24 hours, or the air now. */
  of: z.enum(['forecast high', 'air']),
  aboveF: Decimal.nullable(),
  /** Does the figure itself already count as too hot? */
  including: z.boolean(),
  belowF: Decimal.nullable(),
  outcome: z.enum(['heads-up', 'hold']),
  remark: z.string(),
  source: Source,
})
export type HeatAdvice = z.infer<typeof HeatAdvice>

/** A span of hours or days that somebody publishes. */
const SpanAdvice = z.strictObject({ id: z.string().min(1), least: Decimal, most: Decimal, source: Source })

export const MowingAdvice = z.strictObject({
  id: z.string().min(1),
  daysSince: z.strictObject({ least: Decimal, most: Decimal }),
  daysUntil: z.strictObject({ least: Decimal, most: Decimal }),
  source: Source,
})

/** Ends of the heat index where care has to grow. */
export const HeatBand = z.strictObject({
  id: z.enum(['lower', 'moderate', 'high', 'extreme']),
  fromF: Decimal,
  outcome: z.enum(['answer', 'heads-up', 'hold']),
})

/** Everything published that is held against a day, beside the label and after it. */
export const Guidance = z.strictObject({
  wind: z.array(WindAdvice).min(1),
  heat: z.array(HeatAdvice).min(1),
  rain: z.array(SpanAdvice).min(1),
  mowing: z.array(MowingAdvice).min(1),
  deltaT: z.strictObject({ leastC: Decimal, bestMostC: Decimal, mostC: Decimal, source: Source }),
  heatIndex: z.strictObject({ bands: z.array(HeatBand).min(1), source: Source }),
})
export type Guidance = z.infer<typeof Guidance>

const parts = ['wind', 'heat', 'rain', 'mowing', 'deltaT', 'heatIndex'] as const
const files: Record<(typeof parts)[number], string> = {
  wind: 'wind',
  heat: 'heat',
  rain: 'rain',
  mowing: 'mowing',
  deltaT: 'delta-t',
  heatIndex: 'heat-index',
}

/**
 * Reads the published guidance.
 * @param read gives the text of a file below the data folder
 * @throws ZodError for a table of the wrong shape
 */
export function loadGuidance(read: (name: string) => string): Guidance {
  const tables = parts.map((part) => [part, JSON.parse(read(`weather/${files[part]}.json`))] as const)
  return Guidance.parse(Object.fromEntries(tables))
}
