import type { Mass, Tool } from '#src/calculator/mix/request.ts'
import type { LabelEntry } from '#src/label/entry.ts'
import { measureOf } from '#src/label/figures.ts'
import type { Quantity } from '#src/quantity/quantity.ts'
import { dimensionOf } from '#src/quantity/units.ts'
import type { Crew } from '#src/store/crews.ts'

/** The crew's tools, and the scoop that came with this product. */
export function toolsFor(entry: LabelEntry | undefined, { settings }: Crew): Tool[] {
  const own = settings.tools as unknown as Tool[]
  const scoop = entry?.scoop
  if (scoop === undefined) return [...own]
  const holds: Mass = measureOf(scoop.holds, 'mass')
  return [...own, { kind: 'scoop', name: scoop.name, step: { value: '1', unit: 'cup' }, holds }]
}

/** The one scale or cylinder that somebody has at hand, by how fine it is. */
export function typedTool(step: Quantity): Tool {
  return { kind: dimensionOf(step.unit) === 'mass' ? 'scale' : 'cylinder', name: 'scale', step }
}
