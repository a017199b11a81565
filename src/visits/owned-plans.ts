import type { OwnedPlan } from '#src/recheck/due.ts'
import type { KeptVisits } from '#src/store/visits.ts'

/** Kept visits in the form in which the rules of due looks and reminders read them: ids as texts. */
export function ownedPlan({ id, siteId, areaId, ownerId, plan }: KeptVisits): OwnedPlan {
  return {
    plan: String(id),
    site: String(siteId ?? 0),
    area: String(areaId ?? 0),
    owner: String(ownerId),
    looks: plan,
  }
}
