import type { Text } from '#src/conversation/text.ts'
import type { Tools } from '#src/desk/command.ts'
import { mayI } from '#src/label/allow.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import type { Reason } from '#src/label/verdict.ts'
import { allowSettingsOf, turfsOf } from '#src/mixing/situation.ts'
import { mindLines } from '#src/site/mind.ts'
import type { Area, Site } from '#src/store/sites.ts'

/** What a crew must mind at this address before it sprays. */
export function mindOf(site: Site | null): Text[] {
  return site === null ? [] : mindLines(site.details)
}

/** Sleeping grass as it is noted for the area; what was said today wins. */
export function sleepsOn(area: Area | null, said: boolean | undefined): boolean | undefined {
  return said ?? (area?.details.dormant === true ? true : undefined)
}

/** How long the label keeps new seed and sod of this area waiting. What it leaves open is told, not asked here. */
export function newTurf(entry: LabelEntry | undefined, area: Area | null, tools: Tools): Reason[] {
  if (entry === undefined || area === null) return []
  const { seededOn, soddedOn } = area.details
  const turfs = turfsOf(area, tools.today)
  const { reasons } = mayI(
    entry,
    {
      turfs: turfs.length === 0 ? 'unknown' : turfs,
      licensed: true,
      today: tools.today,
      lastConfirmedOn: tools.today,
      treatments: [],
      ...(seededOn === null ? {} : { seededOn }),
      ...(soddedOn === null ? {} : { soddedOn }),
    },
    allowSettingsOf(tools.crew),
  )
  return reasons
    .filter(({ id }) => NEW_TURF.has(id))
    .map((one) => (one.outcome === 'question' ? { ...one, outcome: 'heads-up' } : one))
}

const NEW_TURF = new Set([
  'label.new-seed-days',
  'label.new-seed-mowings',
  'label.new-seed-mowings-unknown',
  'label.new-sod-days',
  'label.new-sod-mowings',
  'label.new-sod-mowings-unknown',
])
