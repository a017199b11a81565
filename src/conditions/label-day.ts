import type { LabelEntry } from '#src/label/entry.ts'
import { measureOf } from '#src/label/figures.ts'
import type { LabelDay } from '#src/weather/readings.ts'

/** What a label entry says about the day, in figures that can be held against a reading. */
export function labelDayOf(entry: LabelEntry, roots?: 'allowed' | 'forbidden'): LabelDay {
  const { wind, temperature, droplets, rainFree, watering, mowing } = entry.limits
  const ends = <D extends 'speed' | 'temperature'>(
    limit: { most?: string; least?: string; line?: string; page?: string },
    expect: D,
  ) => {
    const { most, least, ...at } = limit
    return {
      ...(most === undefined ? {} : { most: measureOf(most, expect) }),
      ...(least === undefined ? {} : { least: measureOf(least, expect) }),
      ...at,
    }
  }
  const sleeps = entry.rateLines.every(({ dormantOnly }) => dormantOnly === true)
  const [line] = entry.rateLines
  return {
    ...(wind === undefined ? {} : { wind: ends(wind, 'speed') }),
    ...(temperature === undefined ? {} : { temperature: ends(temperature, 'temperature') }),
    ...(droplets === undefined ? {} : { droplets }),
    ...(rainFree === undefined ? {} : { rainFree }),
    ...(watering === undefined ? {} : { watering }),
    ...(mowing === undefined ? {} : { mowing }),
    ...(roots === undefined ? {} : { treeRoots: { rule: roots } }),
    ...(sleeps && line !== undefined ? { dormant: { rule: 'only' as const, line: line.line } } : {}),
    groups: entry.actives.flatMap(({ group }) => (group === undefined ? [] : [group])),
    through: throughOf(entry),
  }
}

/** As the label says. Where it is silent (common practice, no source): granules and what is watered in work through the soil, everything else by the leaf. */
function throughOf({ formulation, limits }: LabelEntry): LabelDay['through'] {
  if (limits.worksThrough !== undefined) return limits.worksThrough.way
  return formulation === 'G' || limits.watering?.rule === 'water in' ? 'soil' : 'leaf'
}

/** Where no product is named nothing is known of a label: only what is published speaks. */
export const NO_LABEL: LabelDay = { groups: [], through: 'leaf', isUnread: true }
