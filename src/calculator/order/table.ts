import { z } from 'zod'

/**
 * What goes into a tank: formulation codes as the trade prints them behind a product's name, and the helpers that
 * are no pesticides. A granule (G) is spread, not mixed.
 */
export const Code = z.enum([
  'WSP',
  'WP',
  'DF',
  'WDG',
  'WG',
  'SP',
  'SG',
  'SC',
  'F',
  'SE',
  'CS',
  'ME',
  'AS',
  'SL',
  'S',
  'L',
  'EC',
  'EW',
  'OD',
  'G',
  'ammonium sulfate',
  'compatibility agent',
  'defoamer',
  'buffer',
  'dry fertilizer',
  'liquid fertilizer',
  'NIS',
  'COC',
  'MSO',
  'drift agent',
  'sulfate-surfactant premix',
])
export type Code = z.infer<typeof Code>

/** What is done after a step. */
export const Doing = z.enum([
  'agitate',
  'agitate-until-dispersed',
  'slurry-first',
  'slurry-two-to-one',
  'fill-to-80',
])
export type Doing = z.infer<typeof Doing>

export const OrderStep = z.strictObject({
  id: z.string().min(1),
  /** Codes that the source names. */
  named: z.array(Code),
  /** Codes that are read into the source's words: it says "suspensions", we place SC. */
  read: z.array(Code),
  after: z.array(Doing),
})
export type OrderStep = z.infer<typeof OrderStep>

/** A part of the tank: one of three is a third. */
const Part = z.strictObject({ parts: z.int().min(1), of: z.int().min(1) })

/** One published order, as data with its source. */
export const OrderTable = z
  .strictObject({
    id: z.string().regex(/^[a-z-]+$/),
    source: z.strictObject({ name: z.string().min(1), short: z.string().min(1), url: z.url() }),
    /** Was the whole text of the source read, or a part of it? */
    seen: z.enum(['whole', 'part']),
    /** Share of the tank to fill before the first product; null where the source was not seen to say. */
    fill: z.strictObject({ least: Part, most: Part }).nullable(),
    steps: z.array(OrderStep).min(2),
    last: z.array(Doing),
    notes: z.array(z.string().min(1)),
  })
  .refine((table) => codesOf(table).length === new Set(codesOf(table)).size, {
    message: 'places a code in two steps',
  })
export type OrderTable = z.infer<typeof OrderTable>

function codesOf(table: { readonly steps: readonly OrderStep[] }): Code[] {
  return table.steps.flatMap((one) => [...one.named, ...one.read])
}

/** Names of the published orders, the first being the one used when a crew has chosen none. */
export const tableNames = [
  'oklahoma-state',
  'north-dakota-state',
  'south-dakota-state',
  'w-a-l-e-s',
  'utah-state',
] as const

/**
 * Reads every published order.
 * @param read gives the text of a file below the data folder
 * @throws ZodError for a table of the wrong shape
 */
export function loadOrderTables(read: (name: string) => string): OrderTable[] {
  return tableNames.map((name) => OrderTable.parse(JSON.parse(read(`formulations/${name}.json`))))
}

/** Where a table puts a code: the number of its step from zero, or null if it says nothing. */
export function placeIn(table: OrderTable, code: Code): number | null {
  const place = table.steps.findIndex((one) => one.named.includes(code) || one.read.includes(code))
  return place < 0 ? null : place
}
