import type { LabelEntry } from '#src/label/entry.ts'
import { measureOf } from '#src/label/figures.ts'
import type { LabelDay } from '#src/weather/readings.ts'

/** Common practice, no source: granules and products against what has not come up yet work through the soil. */
const SOIL = new Set(['G'])

/** What a label entry says about the day, in figures that can be held against a reading. */
export function labelDayOf(entry: LabelEntry): LabelDay {
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
  return {
    ...(wind === undefined ? {} : { wind: ends(wind, 'speed') }),
    ...(temperature === undefined ? {} : { temperature: ends(temperature, 'temperature') }),
    ...(droplets === undefined ? {} : { droplets }),
    ...(rainFree === undefined ? {} : { rainFree }),
    ...(watering === undefined ? {} : { watering }),
    ...(mowing === undefined ? {} : { mowing }),
    groups: entry.actives.flatMap(({ group }) => (group === undefined ? [] : [group])),
    through: SOIL.has(entry.formulation) ? 'soil' : 'leaf',
  }
}

/** Where no product is named nothing is known of a label: only what is published speaks. */
export const NO_LABEL: LabelDay = { groups: [], through: 'leaf' }
