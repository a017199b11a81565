import type { Model } from './model.ts'
import type { Posterior } from './posterior.ts'

/** What may be named: one plant, or a group of plants that are treated alike. */
export type Unit = { readonly members: readonly number[]; readonly group?: string }

/** Units that hold this plant, the smallest first. None of them holds a plant that grows here as turf. */
export function unitsOf(model: Model, taxon: number, posterior: Posterior): Unit[] {
  const protectedHere = new Set(posterior.turfKnown ? posterior.guarded : [])
  if (protectedHere.has(taxon)) return []
  const groups = model.key.groups
    .map((group) => ({
      group: group.id,
      members: group.members.flatMap((id) => model.indexOf.get(id) ?? []),
    }))
    .filter((unit) => unit.members.includes(taxon))
    .filter((unit) => !unit.members.some((member) => protectedHere.has(member)))
    .sort((a, b) => a.members.length - b.members.length)
  return [{ members: [taxon] }, ...groups]
}

export function shareOf(unit: Unit, shares: Float64Array): number {
  return unit.members.reduce((sum, member) => sum + (shares[member] ?? 0), 0)
}

/** The plant with the highest share. */
export function leading(shares: Float64Array, skip: ReadonlySet<number> = new Set()): number {
  let best = -1
  for (let taxon = 0; taxon < shares.length; taxon++) {
    if (skip.has(taxon)) continue
    if (best < 0 || (shares[taxon] ?? 0) > (shares[best] ?? 0)) best = taxon
  }
  return best
}

/**
 * For each plant the number of its class; plants of one class are asked apart only where that matters.
 * A group with a member that grows here as turf stays split.
 */
export function classesOf(model: Model, posterior: Posterior): Int16Array {
  const classes = Int16Array.from(model.key.taxa, (_, index) => index)
  const protectedHere = new Set(posterior.guarded)
  const bySize = [...model.key.groups].sort((a, b) => a.members.length - b.members.length)
  for (const group of bySize) {
    const members = group.members.flatMap((id) => model.indexOf.get(id) ?? [])
    if (posterior.turfKnown && members.some((member) => protectedHere.has(member))) continue
    const first = members[0]
    if (first === undefined) continue
    for (const member of members) classes[member] = first
  }
  return classes
}
